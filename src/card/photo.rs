//! The photo of the finished model at the head of a card, made small for paper.

use std::sync::Arc;

use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::{DynamicImage, RgbImage};

use super::sheet::{At, Mark, Meaning, PaperPhoto, What};

/// The longest side in pixels: some 200 an inch, beyond which a printed photo of this size looks no sharper.
const LONGEST_PIXELS: u32 = 290;
/// JPEG quality at which painted edges show no blocks.
const QUALITY: u8 = 84;
/// The longest side of a card's photo, in points: a third of the width of a small card.
const LONGEST: f32 = 104.0;

/// A photo ready for paper.
#[derive(Debug, Clone)]
pub(super) struct Photo {
    /// Its file as JPEG, which is put into the PDF as it is.
    jpeg: Arc<[u8]>,
    /// How many pixels that is wide and tall.
    pixels: (usize, usize),
    /// Its height for a width of one.
    aspect: f32,
    /// What can be seen on it.
    pub(super) alt: String,
}

impl Photo {
    /// Makes a photo small; `None` where it has no size.
    pub(super) fn of(photo: &RgbImage, alt: &str) -> Option<Self> {
        let (wide, tall) = photo.dimensions();
        let longest = wide.max(tall);
        if wide == 0 || tall == 0 {
            return None;
        }
        let most = u64::from(LONGEST_PIXELS.min(longest));
        let side = |length: u32| u32::try_from(u64::from(length) * most / u64::from(longest)).unwrap_or(1).max(1);
        // The library's own function for any picture is compiled with it, and in a build for tests many times as fast.
        let small = DynamicImage::from(photo.clone());
        let small = small.resize_exact(side(wide), side(tall), FilterType::CatmullRom).into_rgb8();
        let mut jpeg = Vec::new();
        small.write_with_encoder(JpegEncoder::new_with_quality(&mut jpeg, QUALITY)).ok()?;
        let pixels = (usize::try_from(small.width()).ok()?, usize::try_from(small.height()).ok()?);
        Some(Self { pixels, jpeg: jpeg.into(), aspect: tall as f32 / wide as f32, alt: alt.to_owned() })
    }

    /// Its width and height in points, whole, where no side may be longer than this.
    pub(super) fn size(&self, longest: f32) -> At {
        let longest = longest.min(LONGEST);
        if self.aspect > 1.0 { (longest / self.aspect, longest) } else { (longest, longest * self.aspect) }
    }

    /// The photo as a mark with its upper left corner at a place.
    pub(super) fn mark(&self, at: At, size: At, piece: usize) -> Mark {
        let jpeg = Arc::clone(&self.jpeg);
        Mark { what: What::Photo(PaperPhoto { jpeg, pixels: self.pixels, at, size }), meaning: Meaning::Piece(piece) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_photo_stays_whole_in_its_room_whatever_its_shape() {
        for (wide, tall) in [(1, 1), (1, 4000), (4000, 1), (300, 400), (1600, 900)] {
            let photo = Photo::of(&RgbImage::new(wide, tall), "A shell.").unwrap();
            let (width, height) = photo.size(60.0);
            assert!(width <= 60.0 && height <= 60.0 && width.max(height) > 59.9, "{wide} × {tall}: {width} × {height}");
            assert!((height / width * wide as f32 / tall as f32 - 1.0).abs() < 1e-3, "{wide} × {tall} is bent");
        }
        assert!(Photo::of(&RgbImage::new(0, 5), "").is_none());
    }
}
