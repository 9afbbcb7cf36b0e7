//! The pixels of a picture, upright and in sRGB, within bounds that no file can break.

use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageFormat, Rgb, RgbImage};

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

/// A picture without what can be seen through: where it is clear, a ground shows. `None` where it can't be decoded.
pub fn opaque(bytes: &[u8], ground: [u8; 3]) -> Option<RgbImage> {
    Some(laid_on(pixels(bytes).ok()?.image, ground))
}

/// A decoded picture without what can be seen through.
pub fn laid_on(picture: DynamicImage, ground: [u8; 3]) -> RgbImage {
    if !picture.color().has_alpha() {
        return picture.into_rgb8();
    }
    let over = |above: u8, below: u8, alpha: u8| {
        let sum = u32::from(above) * u32::from(alpha) + u32::from(below) * (255 - u32::from(alpha));
        u8::try_from((sum + 127) / 255).unwrap_or(u8::MAX)
    };
    let seen = picture.into_rgba8();
    RgbImage::from_fn(seen.width(), seen.height(), |x, y| {
        let [red, green, blue, alpha] = seen.get_pixel(x, y).0;
        Rgb([over(red, ground[0], alpha), over(green, ground[1], alpha), over(blue, ground[2], alpha)])
    })
}

/// How many pixels a picture has by its head; `None` where that can't be read.
pub fn pixel_count(bytes: &[u8]) -> Option<u64> {
    let (width, height) = open(bytes).ok()?.decoder.dimensions();
    Some(u64::from(width) * u64::from(height))
}

/// Decodes a picture, turns it upright and carries it over into sRGB.
///
/// # Errors
/// When it has too many pixels, is broken anywhere, or ends too early.
pub fn pixels(bytes: &[u8]) -> Result<Pixels, Fault> {
    let Opened { mut decoder, format, .. } = open(bytes)?;
    if !is_whole(bytes, format) {
        return Err(Fault::Unreadable("its end is missing".to_owned()));
    }
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let profile = decoder.icc_profile().unwrap_or_default();
    let mut image =
        to_srgb(DynamicImage::from_decoder(decoder).map_err(|error| Fault::of(&error))?, profile.as_deref());
    image.apply_orientation(orientation);
    Ok(Pixels { image, format })
}
