//! From marks to a picture: the same type and shapes as on paper, drawn in pixels. No clock, no fonts of the system.

use std::cell::RefCell;

use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{ExtendedColorType, ImageEncoder, RgbImage};
use skrifa::instance::{LocationRef, Size};
use skrifa::outline::{DrawSettings, OutlinePen};
use skrifa::{FontRef, GlyphId, MetadataProvider};
use tiny_skia::{FillRule, LineCap, Path, PathBuilder, PixmapMut, Stroke, Transform};

use super::fonts::Fonts;
use super::sheet::{At, Mark, Paint, Run, Shape, What};
use crate::measure::Colour;

thread_local! {
    /// What was drawn last, four bytes a pixel and three: a picture is of some megabytes, and to ask the system for them
    /// again for each takes as long as to draw it.
    static CANVAS: RefCell<(Vec<u8>, Vec<u8>)> = RefCell::default();
}

/// Draws marks over a ground, and a photo at the right, and gives the picture as PNG; `None` where it has no size.
pub(super) fn png(
    (width, height): (u32, u32),
    ground: Colour,
    marks: &[Mark],
    photo: Option<&RgbImage>,
    fonts: &Fonts,
) -> Option<Vec<u8>> {
    CANVAS.with_borrow_mut(|(canvas, packed)| {
        canvas.resize(usize::try_from(width.checked_mul(height)?.checked_mul(4)?).ok()?, 0);
        let mut pixels = PixmapMut::from_bytes(canvas, width, height)?;
        let [red, green, blue] = ground.0;
        pixels.fill(tiny_skia::Color::from_rgba8(red, green, blue, 255));
        for mark in marks {
            match &mark.what {
                What::Text(run) => draw_text(&mut pixels, run, fonts),
                What::Shape(shape) => draw_shape(&mut pixels, shape),
                // A photo in a picture is no mark: it is laid over the right edge below.
                What::Photo(_) => {}
            }
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

fn draw_text(pixels: &mut PixmapMut<'_>, run: &Run, fonts: &Fonts) {
    let Some(face) = fonts.faces.get(run.font) else { return };
    let Ok(font) = FontRef::new(face.blob.data()) else { return };
    let outlines = font.outline_glyphs();
    let mut pen = Pen { path: PathBuilder::new(), at: run.at };
    for glyph in &run.glyphs {
        let (x, y) = glyph.moved;
        let start = pen.at;
        pen.at = (start.0 + x, start.1 - y);
        if let Some(outline) = outlines.get(GlyphId::new(glyph.id)) {
            // A glyph that can't be drawn leaves its space; what a font lacks was told long before.
            let _ = outline.draw(DrawSettings::unhinted(Size::new(run.size), LocationRef::default()), &mut pen);
        }
        pen.at = (start.0 + glyph.advance, start.1);
    }
    if let Some(path) = pen.path.finish() {
        pixels.fill_path(&path, &paint(run.colour), FillRule::Winding, Transform::identity(), None);
    }
}

/// Takes the outline of a glyph, whose heights count upwards, to its place on the picture.
struct Pen {
    path: PathBuilder,
    at: At,
}

impl Pen {
    fn placed(&self, x: f32, y: f32) -> At {
        (self.at.0 + x, self.at.1 - y)
    }
}

impl OutlinePen for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        let (x, y) = self.placed(x, y);
        self.path.move_to(x, y);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let (x, y) = self.placed(x, y);
        self.path.line_to(x, y);
    }

    fn quad_to(&mut self, cx0: f32, cy0: f32, x: f32, y: f32) {
        let ((cx, cy), (x, y)) = (self.placed(cx0, cy0), self.placed(x, y));
        self.path.quad_to(cx, cy, x, y);
    }

    fn curve_to(&mut self, cx0: f32, cy0: f32, cx1: f32, cy1: f32, x: f32, y: f32) {
        let (one, two, (x, y)) = (self.placed(cx0, cy0), self.placed(cx1, cy1), self.placed(x, y));
        self.path.cubic_to(one.0, one.1, two.0, two.1, x, y);
    }

    fn close(&mut self) {
        self.path.close();
    }
}
