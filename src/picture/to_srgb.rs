//! A picture's own colour profile, carried over into sRGB, which every screen takes for granted.

use image::DynamicImage;
use moxcms::{ColorProfile, DataColorSpace, Layout, TransformOptions};

/// The largest profile that is read, in bytes; those of cameras and scanners have up to a megabyte.
const LARGEST_PROFILE: usize = 4_000_000;

/// The picture with eight bits a channel, in sRGB.
///
/// A profile that can't be read, or that is about other channels than the picture has, is left aside: such a picture is
/// taken for sRGB, as browsers do.
pub(super) fn to_srgb(picture: DynamicImage, profile: Option<&[u8]>) -> DynamicImage {
    let is_grey = !picture.color().has_color();
    let picture = eight_bits(picture);
    let own = profile.filter(|bytes| bytes.len() <= LARGEST_PROFILE);
    let Some(own) = own.and_then(|bytes| ColorProfile::new_from_slice(bytes).ok()) else { return picture };
    match own.color_space {
        DataColorSpace::Rgb => converted(&picture, &own).unwrap_or(picture),
        DataColorSpace::Gray if is_grey => shaded(picture, &own),
        _ => picture,
    }
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

/// Shades of grey, each looked up among the 256 that there are.
fn shaded(picture: DynamicImage, own: &ColorProfile) -> DynamicImage {
    let all: Vec<u8> = (0..=u8::MAX).collect();
    let mut shades = vec![0; 3 * all.len()];
    let srgb = ColorProfile::new_srgb();
    let transform = own.create_transform_8bit(Layout::Gray, &srgb, Layout::Rgb, TransformOptions::default());
    if !transform.is_ok_and(|transform| transform.transform(&all, &mut shades).is_ok()) {
        return picture;
    }
    let shade = |channel: &mut u8| *channel = shades.get(3 * usize::from(*channel)).copied().unwrap_or(*channel);
    match picture {
        DynamicImage::ImageRgba8(mut picture) => {
            picture.pixels_mut().for_each(|pixel| pixel.0[..3].iter_mut().for_each(shade));
            picture.into()
        }
        mut other => {
            if let Some(picture) = other.as_mut_rgb8() {
                picture.pixels_mut().for_each(|pixel| pixel.0.iter_mut().for_each(shade));
            }
            other
        }
    }
}
