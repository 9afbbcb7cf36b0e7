//! Letters as pixels: how much of each pixel one covers. The same few letters in the same few sizes stand on every picture,
//! so each is drawn once and laid down wherever it stands.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

use skrifa::instance::{LocationRef, Size};
use skrifa::outline::{DrawSettings, OutlinePen};
use skrifa::{FontRef, GlyphId, MetadataProvider};
use tiny_skia::{FillRule, Mask, Path, PathBuilder, Transform};

/// Letters of so many pixels together are kept. Those of the built-in fonts on the pictures of a guide are a tenth of that; what
/// comes later is drawn each time.
const MOST_KEPT: usize = 16_000_000;

/// No letter goes further than so many pixels from where it begins: more than the whole picture has. A font may say anything.
const FURTHEST: f32 = 2000.0;

/// The steps of a pixel at which letters are drawn, from left to right: finer is not seen.
const STEPS: u8 = 4;

/// The shades of a letter's rim: with so few, a picture without a photo has few colours.
const SHADES: u16 = 15;

/// Which letter, in which size, and where in its pixel it begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct Which {
    font: usize,
    glyph: u32,
    size: u32,
    step: u8,
}

/// How much of each pixel a letter covers.
#[derive(Debug)]
pub(super) struct LetterMask {
    /// Where its first pixel is, from the pixel in which the letter begins on its baseline.
    pub(super) corner: (i32, i32),
    /// The pixels of a row.
    pub(super) width: usize,
    /// The cover of each pixel, row by row, 0 to 255.
    pub(super) cover: Vec<u8>,
}

/// The letters that were drawn for any picture.
#[derive(Default)]
pub(super) struct LetterMasks(Mutex<Kept>);

/// The letters, and of how many pixels they are.
#[derive(Default)]
struct Kept {
    letters: HashMap<Which, Option<Arc<LetterMask>>>,
    pixels: usize,
}

impl LetterMasks {
    /// A glyph of a font (by its position and its bytes) in a size, that begins at some share of a pixel; none where it
    /// shows nothing, or is larger than any picture. A glyph that can't be drawn leaves its space: what a font lacks was told
    /// long before.
    pub(super) fn of(
        &self,
        (font, bytes): (usize, &[u8]),
        glyph: u32,
        size: f32,
        share: f32,
    ) -> Option<Arc<LetterMask>> {
        let step = step(share);
        let which = Which { font, glyph, size: size.to_bits(), step };
        let kept = || self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = kept().letters.get(&which) {
            return known.clone();
        }
        let drawn =
            outline(bytes, glyph, size, f32::from(step) / f32::from(STEPS)).and_then(|path| mask(&path)).map(Arc::new);
        let mut kept = kept();
        // What shows nothing is remembered too, and counts as one.
        let pixels = kept.pixels + drawn.as_ref().map_or(1, |letter| letter.cover.len());
        if pixels <= MOST_KEPT {
            kept.pixels = pixels;
            kept.letters.insert(which, drawn.clone());
        }
        drawn
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share is from 0 to 1")]
fn step(share: f32) -> u8 {
    (share.clamp(0.0, 0.99) * f32::from(STEPS)) as u8
}

fn outline(bytes: &[u8], glyph: u32, size: f32, right: f32) -> Option<Path> {
    let font = FontRef::new(bytes).ok()?;
    let mut pen = Pen { path: PathBuilder::new(), right };
    let outline = font.outline_glyphs().get(GlyphId::new(glyph))?;
    outline.draw(DrawSettings::unhinted(Size::new(size), LocationRef::default()), &mut pen).ok()?;
    pen.path.finish()
}

fn mask(path: &Path) -> Option<LetterMask> {
    let bounds = path.bounds();
    let (left, top) = (whole(bounds.left().floor())?, whole(bounds.top().floor())?);
    let size = |from: i32, to: f32| u32::try_from(whole(to.ceil())?.checked_sub(from)?.checked_add(1)?).ok();
    let (width, height) = (size(left, bounds.right())?, size(top, bounds.bottom())?);
    let mut mask = Mask::new(width, height)?;
    #[expect(clippy::cast_precision_loss, reason = "a letter is of some hundred pixels")]
    let to_corner = Transform::from_translate(-(left as f32), -(top as f32));
    mask.fill_path(path, FillRule::Winding, true, to_corner);
    let cover = mask.data().iter().map(|cover| in_shades(*cover)).collect();
    Some(LetterMask { corner: (left, top), width: usize::try_from(width).ok()?, cover })
}

fn in_shades(cover: u8) -> u8 {
    let shade = (u16::from(cover) * SHADES + 127) / 255;
    u8::try_from(shade * 255 / SHADES).unwrap_or(u8::MAX)
}

#[expect(clippy::cast_possible_truncation, reason = "looked at first")]
fn whole(number: f32) -> Option<i32> {
    (number.abs() <= FURTHEST).then_some(number as i32)
}

/// Draws the outline of a glyph, whose heights count upwards, a little to the right.
struct Pen {
    path: PathBuilder,
    right: f32,
}

impl OutlinePen for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.path.move_to(x + self.right, -y);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.path.line_to(x + self.right, -y);
    }

    fn quad_to(&mut self, cx0: f32, cy0: f32, x: f32, y: f32) {
        self.path.quad_to(cx0 + self.right, -cy0, x + self.right, -y);
    }

    fn curve_to(&mut self, cx0: f32, cy0: f32, cx1: f32, cy1: f32, x: f32, y: f32) {
        self.path.cubic_to(cx0 + self.right, -cy0, cx1 + self.right, -cy1, x + self.right, -y);
    }

    fn close(&mut self) {
        self.path.close();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_letter_larger_than_any_picture_leaves_its_space() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/fonts/few-letters.otf");
        let bytes = std::fs::read(path).unwrap();
        let masks = LetterMasks::default();
        let shown = |size: f32| (1..9).filter_map(|glyph| masks.of((0, &bytes), glyph, size, 0.0)).count();
        assert!(shown(40.0) > 0);
        assert_eq!(shown(1e6), 0);
    }
}
