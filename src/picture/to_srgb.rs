//! A picture's own colour profile, carried over into sRGB, which every screen takes for granted.

use image::DynamicImage;
use moxcms::{ColorProfile, DataColorSpace, Layout, TransformOptions};

/// The largest profile that is read, in bytes; those of cameras and scanners have up to a megabyte.
const LARGEST_PROFILE: usize = 4_000_000;

/// The picture with eight bits a channel, in sRGB.
///
/// A profile that can't be read, or that is not about red, green and blue, is left aside: such a picture is taken for
/// sRGB, as browsers do.
pub(super) fn to_srgb(picture: DynamicImage, profile: Option<&[u8]>) -> DynamicImage {
    let picture = eight_bits(picture);
    let own = profile.filter(|bytes| bytes.len() <= LARGEST_PROFILE);
    let Some(own) = own.and_then(|bytes| ColorProfile::new_from_slice(bytes).ok()) else { return picture };
    if own.color_space != DataColorSpace::Rgb {
        return picture;
    }
    converted(&picture, &own).unwrap_or(picture)
}

/// Eight bits are what JPEG and screens have; shades of grey become three equal channels.
fn eight_bits(picture: DynamicImage) -> DynamicImage {
    if picture.color().has_alpha() {
        DynamicImage::ImageRgba8(picture.into_rgba8())
    } else {
        DynamicImage::ImageRgb8(picture.into_rgb8())
    }
}

fn converted(picture: &DynamicImage, own: &ColorProfile) -> Option<DynamicImage> {
    let layout = if picture.color().has_alpha() { Layout::Rgba } else { Layout::Rgb };
    let srgb = ColorProfile::new_srgb();
    let transform = own.create_transform_8bit(layout, &srgb, layout, TransformOptions::default()).ok()?;
    let mut pixels = vec![0; picture.as_bytes().len()];
    transform.transform(picture.as_bytes(), &mut pixels).ok()?;
    let (width, height) = (picture.width(), picture.height());
    match layout {
        Layout::Rgba => image::RgbaImage::from_raw(width, height, pixels).map(DynamicImage::ImageRgba8),
        _ => image::RgbImage::from_raw(width, height, pixels).map(DynamicImage::ImageRgb8),
    }
}
