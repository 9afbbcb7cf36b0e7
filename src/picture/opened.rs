//! The door to every picture file: opened within bounds that hold before anything in it is unpacked.

use std::io::Cursor;

use image::{ImageDecoder, ImageFormat, ImageReader, Limits};

use super::fault::Fault;

/// The most pixels that a picture may have.
pub(super) const MOST_PIXELS: u64 = 50_000_000;

/// The longest side of a picture, in pixels. No camera makes a longer one, and a strip of one row costs as much to scale
/// as a square.
const LONGEST_SIDE: u32 = 20_000;

/// The most bytes that the pixels of a picture may take as they are decoded: 16 bits a channel count twice.
const MOST_BYTES_OPEN: u64 = MOST_PIXELS * 4;

/// The most bytes that a PNG may take beside its pixels: a profile four times as large as any that is read, and a few of the longest
/// rows.
const MOST_BESIDE_PIXELS: u64 = 16_000_000;

/// A picture whose header was read.
pub(super) struct Opened<'a> {
    /// What decodes its pixels.
    pub(super) decoder: Box<dyn ImageDecoder + 'a>,
    /// The format that its bytes are in.
    pub(super) format: ImageFormat,
    /// The bytes that its pixels take when they are decoded.
    pub(super) weight: u64,
}

/// Opens a picture.
///
/// # Errors
/// When it is no picture, or larger than any page needs.
pub(super) fn open(bytes: &[u8]) -> Result<Opened<'_>, Fault> {
    let mut reader =
        ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|error| Fault::of(&error.into()))?;
    let Some(format) = reader.format() else {
        return Err(Fault::Unreadable("what is in it is no picture that is known".to_owned()));
    };
    // The colour profile of a PNG is packed, and may unpack to a thousand times its size as the file is opened: the bound must
    // be set before that, and holds for as many pictures as there are processors.
    let mut limits = Limits::default();
    limits.max_alloc = Some(if format == ImageFormat::Png { MOST_BESIDE_PIXELS } else { MOST_BYTES_OPEN });
    reader.limits(limits);
    let decoder = reader.into_decoder().map_err(|error| Fault::of(&error))?;
    let (width, height) = decoder.dimensions();
    let weight = decoder.total_bytes();
    let is_large = u64::from(width) * u64::from(height) > MOST_PIXELS || width.max(height) > LONGEST_SIDE;
    if is_large || weight > MOST_BYTES_OPEN {
        return Err(Fault::TooLarge(format!("this picture has {width} × {height} pixels")));
    }
    Ok(Opened { decoder: Box::new(decoder), format, weight })
}

#[cfg(test)]
mod tests {
    use image::ImageEncoder;
    use image::codecs::png::PngEncoder;

    use super::*;

    fn png_with_profile(length: usize) -> Vec<u8> {
        let mut png = Vec::new();
        let mut encoder = PngEncoder::new(&mut png);
        encoder.set_icc_profile(vec![0; length]).unwrap();
        encoder.write_image(&[90; 300], 10, 10, image::ExtendedColorType::Rgb8).unwrap();
        png
    }

    #[test]
    fn a_profile_that_unpacks_to_a_thousand_times_its_size_is_never_held() {
        let profile_of = |png: &[u8]| open(png).ok().and_then(|mut opened| opened.decoder.icc_profile().ok().flatten());
        assert_eq!(profile_of(&png_with_profile(3_000_000)).map(|profile| profile.len()), Some(3_000_000));
        let packed = png_with_profile(190_000_000);
        assert!(packed.len() < 300_000);
        assert_eq!(profile_of(&packed).map(|profile| profile.len()), None);
    }
}
