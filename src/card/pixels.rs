//! From marks to a picture: the same type and shapes as on paper, drawn in pixels. No clock, no fonts of the system.

use std::cell::RefCell;

use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{ExtendedColorType, ImageEncoder, RgbImage};
use tiny_skia::{FillRule, LineCap, Path, PathBuilder, Stroke, Transform};

use super::canvas::Canvas;
use super::few_colours::FewColours;
use super::fonts::Fonts;
use super::letter_masks::LetterMask;
use super::sheet::{At, Mark, Paint, Run, Shape, What};
use crate::measure::Colour;

/// What was drawn last: a picture is of some megabytes, and to ask the system for them again for each takes as long as to
/// draw it.
#[derive(Default)]
struct Scratch {
    canvas: Canvas,
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
        canvas.clear((usize::try_from(width).ok()?, usize::try_from(height).ok()?), ground)?;
        for mark in marks {
            match &mark.what {
                What::Text(run) => draw_text(canvas, run, fonts),
                What::Shape(shape) => draw_shape(canvas, shape),
                // A photo in a picture is no mark: it is laid over the right edge below.
                What::Photo(_) => {}
            }
        }
        if photo.is_none() && few.take(canvas) {
            return listed(few, (width, height));
        }
        // Nothing is see-through, so three bytes a pixel are enough.
        packed.resize(canvas.bytes.len() / 4 * 3, 0);
        for (three, four) in packed.chunks_exact_mut(3).zip(canvas.bytes.chunks_exact(4)) {
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

fn draw_shape(canvas: &mut Canvas, shape: &Shape) {
    let closed = !matches!(shape.paint, Paint::Line(..));
    let Some(path) = path(&shape.outlines, closed) else { return };
    // Where two sides of an outline meet, a line goes further than half its width: a mitre is at most four times that.
    let beside = match shape.paint {
        Paint::Fill(_) => 0.0,
        Paint::Outline(_, width) | Paint::Line(_, width) => 2.0 * width,
    };
    let bounds = path.bounds();
    let corners =
        [(bounds.left() - beside, bounds.top() - beside), (bounds.right() + beside, bounds.bottom() + beside)];
    let Some(mut pixels) = canvas.between(corners[0], corners[1]) else { return };
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
fn draw_text(canvas: &mut Canvas, run: &Run, fonts: &Fonts) {
    let Some(face) = fonts.faces.get(run.font) else { return };
    let mut x = run.at.0;
    for glyph in &run.glyphs {
        let (left, baseline) = (x + glyph.moved.0, (run.at.1 - glyph.moved.1).round());
        let letter = (run.font, face.blob.data());
        if let Some(mask) = fonts.masks.of(letter, glyph.id, run.size, left - left.floor()) {
            lay(canvas, (whole(left), whole(baseline)), &mask, run.colour);
        }
        x += glyph.advance;
    }
}

/// Lays one letter down; what is beyond the edges is left out.
fn lay(canvas: &mut Canvas, (left, baseline): (i32, i32), mask: &LetterMask, colour: Colour) {
    let first = left + mask.corner.0;
    let rows = mask.cover.chunks_exact(mask.width.max(1));
    for (y, row) in (baseline + mask.corner.1..).zip(rows) {
        let Some((cut, pixels)) = canvas.span((first, y), row.len()) else { continue };
        let pixels = pixels.as_chunks_mut::<4>().0;
        for (pixel, cover) in pixels.iter_mut().zip(row.iter().skip(cut)).filter(|(_, cover)| **cover > 0) {
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
