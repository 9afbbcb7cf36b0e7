//! The pixels of a picture, upright, within bounds that no file can break.

use std::io::Cursor;

use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};

use super::survey::{Fault, MOST_PIXELS};

/// A picture that was decoded.
#[derive(Debug)]
pub struct Pixels {
    /// Its pixels, turned as its file says.
    pub image: DynamicImage,
    /// The format that it came in.
    pub format: ImageFormat,
    /// The colour profile (ICC.1) that it carries, as it stands there.
    pub profile: Option<Vec<u8>>,
}

/// Decodes a picture and turns it upright.
///
/// # Errors
/// When it has too many pixels, or is broken anywhere.
pub fn pixels(bytes: &[u8]) -> Result<Pixels, Fault> {
    let unreadable = |error: image::ImageError| Fault::Unreadable(error.to_string());
    let reader = ImageReader::new(Cursor::new(bytes))
        .with_guessed_format()
        .map_err(|error| Fault::Unreadable(error.to_string()))?;
    let format = reader.format().unwrap_or(ImageFormat::Jpeg);
    if format == ImageFormat::Jpeg && !ends(bytes) {
        return Err(Fault::Unreadable("the file ends before the picture does".to_owned()));
    }
    let mut decoder = reader.into_decoder().map_err(unreadable)?;
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(Fault::TooLarge(format!("this picture has {width} × {height} pixels")));
    }
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_PIXELS * 4);
    decoder.set_limits(limits).map_err(unreadable)?;
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    // A profile that can't be read is as good as none.
    let profile = decoder.icc_profile().unwrap_or_default();
    let mut image = DynamicImage::from_decoder(decoder).map_err(unreadable)?;
    image.apply_orientation(orientation);
    Ok(Pixels { image, format, profile })
}

/// Whether the first picture of a JPEG file has its end. Decoders fill up what is missing with grey and say nothing.
///
/// Segments before the picture (which may hold a thumbnail with an end of its own) are skipped by their lengths; in the
/// coded picture the byte 0xFF is never followed by that of the end (ITU-T T.81, B.1.1).
fn ends(bytes: &[u8]) -> bool {
    let mut rest = bytes.get(2..).unwrap_or_default();
    while let [0xff, marker, behind @ ..] = rest {
        match (marker, behind) {
            (0xff, _) => rest = rest.get(1..).unwrap_or_default(),
            (0xda, _) => return behind.windows(2).any(|pair| pair == [0xff, 0xd9]),
            (_, [high, low, ..]) => {
                rest = behind.get(usize::from(u16::from_be_bytes([*high, *low]))..).unwrap_or_default();
            }
            _ => return false,
        }
    }
    // What stands here is no marker; the decoder says what is wrong with it.
    !rest.is_empty()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_that_was_cut_off_is_told_from_a_whole_one() {
        let mut whole = Cursor::new(Vec::new());
        DynamicImage::new_rgb8(40, 40).write_to(&mut whole, ImageFormat::Jpeg).unwrap();
        let whole = whole.into_inner();
        assert!(ends(&whole) && pixels(&whole).is_ok());
        let behind = [&whole[..], b"what a telephone writes behind it"].concat();
        assert!(ends(&behind));
        for end in [whole.len() / 2, whole.len() - 30, whole.len() - 2] {
            assert!(pixels(&whole[..end]).is_err(), "{end}");
        }
    }
}
