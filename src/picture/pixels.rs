//! The pixels of a picture, upright and in sRGB, within bounds that no file can break.

use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageFormat};

use super::fault::Fault;
use super::opened::{Opened, open};
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
    let Opened { mut decoder, format, .. } = open(bytes)?;
    if !is_whole(bytes, format) {
        return Err(Fault::Unreadable("its end is missing".to_owned()));
    }
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let profile = decoder.icc_profile().unwrap_or_default();
    let mut image = to_srgb(DynamicImage::from_decoder(decoder).map_err(unreadable)?, profile.as_deref());
    image.apply_orientation(orientation);
    Ok(Pixels { image, format })
}
