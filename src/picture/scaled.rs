//! A picture in another size.

use image::imageops::FilterType;
use image::{DynamicImage, RgbaImage};

/// A picture with eight bits a channel in another size.
///
/// What can't be seen has a colour all the same, mostly black. It must not count: each pixel counts by how much of it is
/// seen.
pub(super) fn scaled(picture: DynamicImage, width: u32, height: u32) -> DynamicImage {
    let scale = |picture: DynamicImage| picture.resize_exact(width, height, FilterType::CatmullRom);
    match picture {
        DynamicImage::ImageRgba8(seen) => match scale(DynamicImage::ImageRgba8(weighted(seen))) {
            DynamicImage::ImageRgba8(scaled) => DynamicImage::ImageRgba8(unweighted(scaled)),
            other => other,
        },
        plain => scale(plain),
    }
}

/// Colours times how much is seen of them. Eight bits are enough: what is lost is no more than a step of what is seen.
fn weighted(mut picture: RgbaImage) -> RgbaImage {
    for pixel in picture.pixels_mut() {
        let [channels @ .., alpha] = &mut pixel.0;
        for channel in channels {
            *channel = byte((u32::from(*channel) * u32::from(*alpha) + 127) / 255);
        }
    }
    picture
}

fn unweighted(mut picture: RgbaImage) -> RgbaImage {
    for pixel in picture.pixels_mut() {
        let [channels @ .., alpha] = &mut pixel.0;
        let alpha = u32::from(*alpha);
        for channel in channels {
            *channel = (u32::from(*channel) * 255 + alpha / 2).checked_div(alpha).map_or(0, byte);
        }
    }
    picture
}

fn byte(value: u32) -> u8 {
    u8::try_from(value).unwrap_or(u8::MAX)
}

#[cfg(test)]
mod tests {
    use image::Rgba;

    use super::*;

    fn half(clear: [u8; 4]) -> DynamicImage {
        RgbaImage::from_fn(90, 60, |x, _| Rgba(if x < 44 { [230, 190, 120, 255] } else { clear })).into()
    }

    #[test]
    fn what_is_not_seen_does_not_darken_the_edge() {
        let scaled = scaled(half([0; 4]), 31, 20).into_rgba8();
        let mut between = 0;
        for pixel in scaled.pixels().filter(|pixel| pixel.0[3] > 8) {
            between += usize::from(pixel.0[3] < 250);
            // At little of it seen, eight bits hold the colour less finely.
            let most = 2 + 255 / i32::from(pixel.0[3]);
            for (channel, wanted) in pixel.0.into_iter().zip([230, 190, 120]) {
                assert!((i32::from(channel) - wanted).abs() <= most, "{:?}", pixel.0);
            }
        }
        assert!(between > 0, "there is an edge between both");
    }

    #[test]
    fn what_is_seen_whole_is_scaled_as_ever() {
        let whole = half([10, 20, 30, 255]);
        let plain = whole.resize_exact(31, 20, FilterType::CatmullRom);
        assert_eq!(scaled(whole, 31, 20), plain);
    }
}
