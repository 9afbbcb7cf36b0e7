//! The pixels of a picture, upright and in sRGB, within bounds that no file can break.

use std::io::Cursor;

use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};

use super::survey::{Fault, MOST_PIXELS};
use super::to_srgb::to_srgb;
use super::whole::is_whole;

/// A picture that was decoded.
#[derive(Debug)]
pub struct Pixels {
    /// Its pixels, turned as its file says.
    pub image: DynamicImage,
    /// The format that it came in.
    pub format: ImageFormat,
}

/// Decodes a picture, turns it upright and carries it over into sRGB.
///
/// # Errors
/// When it has too many pixels, is broken anywhere, or ends too early.
pub fn pixels(bytes: &[u8]) -> Result<Pixels, Fault> {
    let unreadable = |error: image::ImageError| Fault::Unreadable(error.to_string());
    let reader = ImageReader::new(Cursor::new(bytes))
        .with_guessed_format()
        .map_err(|error| Fault::Unreadable(error.to_string()))?;
    let format = reader.format().unwrap_or(ImageFormat::Jpeg);
    let mut decoder = reader.into_decoder().map_err(unreadable)?;
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(Fault::TooLarge(format!("this picture has {width} × {height} pixels")));
    }
    if !is_whole(bytes, format) {
        return Err(Fault::Unreadable("its end is missing".to_owned()));
    }
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_PIXELS * 4);
    decoder.set_limits(limits).map_err(unreadable)?;
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let profile = decoder.icc_profile().unwrap_or_default();
    let mut image = to_srgb(DynamicImage::from_decoder(decoder).map_err(unreadable)?, profile.as_deref());
    image.apply_orientation(orientation);
    Ok(Pixels { image, format })
}
