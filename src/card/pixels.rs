//! From marks to a picture: the same type and shapes as on paper, drawn in pixels. No clock, no fonts of the system.

use std::cell::RefCell;

use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{ExtendedColorType, ImageEncoder, RgbImage};
use tiny_skia::{FillRule, LineCap, Path, PathBuilder, PixmapMut, Stroke, Transform};

use super::few_colours::FewColours;
use super::fonts::Fonts;
use super::letter_masks::LetterMask;
use super::sheet::{At, Mark, Paint, Run, Shape, What};
use crate::measure::Colour;

/// What was drawn last: a picture is of some megabytes, and to ask the system for them again for each takes as long as to
/// draw it.
#[derive(Default)]
struct Scratch {
    /// Four bytes a pixel.
    canvas: Vec<u8>,
    /// Three bytes a pixel, for a picture with a photo.
    packed: Vec<u8>,
    /// One byte a pixel, for one without.
    few: FewColours,
}

thread_local! {
    static SCRATCH: RefCell<Scratch> = RefCell::default();
}

/// Draws marks over a ground, and a photo at the right, and gives the picture as PNG; `None` where it has no size.
pub(super) fn png(
    (width, height): (u32, u32),
    ground: Colour,
    marks: &[Mark],
    photo: Option<&RgbImage>,
    fonts: &Fonts,
) -> Option<Vec<u8>> {
    SCRATCH.with_borrow_mut(|Scratch { canvas, packed, few }| {
        canvas.resize(usize::try_from(width.checked_mul(height)?.checked_mul(4)?).ok()?, 0);
        let [red, green, blue] = ground.0;
        PixmapMut::from_bytes(canvas, width, height)?.fill(tiny_skia::Color::from_rgba8(red, green, blue, 255));
        for mark in marks {
            match &mark.what {
                What::Text(run) => draw_text(canvas, usize::try_from(width).ok()?, run, fonts),
                What::Shape(shape) => draw_shape(&mut PixmapMut::from_bytes(canvas, width, height)?, shape),
                // A photo in a picture is no mark: it is laid over the right edge below.
                What::Photo(_) => {}
            }
        }
        if photo.is_none() && few.take(canvas, usize::try_from(width).ok()?) {
            return listed(few, (width, height));
        }
        // Nothing is see-through, so three bytes a pixel are enough.
        packed.resize(canvas.len() / 4 * 3, 0);
        for (three, four) in packed.chunks_exact_mut(3).zip(canvas.chunks_exact(4)) {
            three.copy_from_slice(&four[..3]);
        }
        if let Some(photo) = photo {
            lay_at_right(packed, (width, height), photo);
        }
        encoded(packed, (width, height))
    })
}

/// Lays a photo over the right edge, halfway down. One that is larger than the picture is left out.
fn lay_at_right(pixels: &mut [u8], (width, height): (u32, u32), photo: &RgbImage) {
    let (wide, tall) = photo.dimensions();
    let (Some(left), Some(spare)) = (width.checked_sub(wide), height.checked_sub(tall)) else { return };
    let [row, wide, left, top] = [width, wide, left, spare / 2].map(|count| usize::try_from(count).unwrap_or_default());
    let rows = pixels.chunks_exact_mut(row * 3).skip(top);
    for (row, line) in rows.zip(photo.as_raw().chunks_exact((wide * 3).max(1))) {
        row[left * 3..].copy_from_slice(line);
    }
}

/// A picture of few colours as PNG.
fn listed(few: &FewColours, (width, height): (u32, u32)) -> Option<Vec<u8>> {
    let mut out = Vec::new();
    let mut encoder = png::Encoder::new(&mut out, width, height);
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_palette(few.colours.as_slice());
    // Rows that are as those above become nothing but zeros, which this packs in less than half the time of any other way; the
    // file is a seventh larger for it.
    encoder.set_deflate_compression(png::DeflateCompression::FdeflateUltraFast);
    encoder.set_filter(png::Filter::Up);
    encoder.write_header().ok()?.write_image_data(&few.pixels).ok()?;
    Some(out)
}

/// Flat paper and letters become small with the lowest effort, too.
fn encoded(pixels: &[u8], (width, height): (u32, u32)) -> Option<Vec<u8>> {
    let mut out = Vec::new();
    let encoder = PngEncoder::new_with_quality(&mut out, CompressionType::Level(1), FilterType::Up);
    encoder.write_image(pixels, width, height, ExtendedColorType::Rgb8).ok()?;
    Some(out)
}

fn paint(colour: Colour) -> tiny_skia::Paint<'static> {
    let mut paint = tiny_skia::Paint::default();
    let [red, green, blue] = colour.0;
    paint.set_color_rgba8(red, green, blue, 255);
    paint.anti_alias = true;
    paint
}

fn draw_shape(pixels: &mut PixmapMut<'_>, shape: &Shape) {
    let closed = !matches!(shape.paint, Paint::Line(..));
    let Some(path) = path(&shape.outlines, closed) else { return };
    match shape.paint {
        Paint::Fill(colour) => {
            pixels.fill_path(&path, &paint(colour), FillRule::EvenOdd, Transform::identity(), None);
        }
        Paint::Outline(colour, width) | Paint::Line(colour, width) => {
            let stroke = Stroke { width, line_cap: LineCap::Butt, ..Stroke::default() };
            pixels.stroke_path(&path, &paint(colour), &stroke, Transform::identity(), None);
        }
    }
}

fn path(outlines: &[Vec<At>], closed: bool) -> Option<Path> {
    let mut path = PathBuilder::new();
    for outline in outlines {
        let Some(((x, y), rest)) = outline.split_first() else { continue };
        path.move_to(*x, *y);
        for (x, y) in rest {
            path.line_to(*x, *y);
        }
        if closed {
            path.close();
        }
    }
    path.finish()
}

/// Lays the letters of a line down, each on its pixel.
fn draw_text(canvas: &mut [u8], width: usize, run: &Run, fonts: &Fonts) {
    let Some(face) = fonts.faces.get(run.font) else { return };
    let mut x = run.at.0;
    for glyph in &run.glyphs {
        let (left, baseline) = (x + glyph.moved.0, (run.at.1 - glyph.moved.1).round());
        let letter = (run.font, face.blob.data());
        if let Some(mask) = fonts.masks.of(letter, glyph.id, run.size, left - left.floor()) {
            lay(canvas, width, (whole(left), whole(baseline)), &mask, run.colour);
        }
        x += glyph.advance;
    }
}

/// Lays one letter down; what is beyond the edges is left out.
fn lay(canvas: &mut [u8], width: usize, (left, baseline): (i32, i32), mask: &LetterMask, colour: Colour) {
    let first = left + mask.corner.0;
    let rows = mask.cover.chunks_exact(mask.width.max(1));
    for (y, row) in (baseline + mask.corner.1..).zip(rows) {
        let Ok(y) = usize::try_from(y) else { continue };
        let Some(line) = canvas.get_mut(y * width * 4..(y + 1) * width * 4) else { return };
        for (x, cover) in (first..).zip(row).filter(|(_, cover)| **cover > 0) {
            let Some(pixel) = usize::try_from(x).ok().and_then(|x| line.get_mut(x * 4..x * 4 + 3)) else { continue };
            for (under, over) in pixel.iter_mut().zip(colour.0) {
                let (part, rest) = (u32::from(*cover), 255 - u32::from(*cover));
                let mixed = (u32::from(over) * part + u32::from(*under) * rest + 127) / 255;
                *under = u8::try_from(mixed).unwrap_or(u8::MAX);
            }
        }
    }
}

/// The pixel of a place.
#[expect(clippy::cast_possible_truncation, reason = "a number that does not fit becomes the nearest that does")]
fn whole(place: f32) -> i32 {
    place.floor().clamp(-1e6, 1e6) as i32
}
