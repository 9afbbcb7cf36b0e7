//! What a picture is drawn on: its pixels, and which of them were drawn on. Most of a picture is bare paper, which need neither
//! be looked at nor painted over again for the next one.

use std::ops::Range;

use tiny_skia::PixmapMut;

use super::sheet::At;
use crate::measure::Colour;

/// Red, green, blue, and how little is seen through.
pub(super) type Pixel = [u8; 4];

/// A picture in the making; the next one is drawn on the same.
#[derive(Debug, Default)]
pub(super) struct Canvas {
    /// Four bytes a pixel, row by row.
    pub(super) bytes: Vec<u8>,
    /// How many pixels a row has.
    pub(super) width: usize,
    /// The pixels of each row that something may have been drawn on; all others are ground.
    touched: Vec<Range<usize>>,
    ground: Pixel,
}

impl Canvas {
    /// Makes everything ground; `None` where the size is beyond what can be counted.
    pub(super) fn clear(&mut self, (width, height): (usize, usize), ground: Colour) -> Option<()> {
        let [red, green, blue] = ground.0;
        let ground = [red, green, blue, u8::MAX];
        let size = width.checked_mul(height)?.checked_mul(4)?;
        if (self.width, self.touched.len(), self.ground) == (width, height, ground) {
            let Self { bytes, touched, .. } = self;
            for (row, span) in bytes.as_chunks_mut::<4>().0.chunks_exact_mut(width.max(1)).zip(&*touched) {
                row[span.clone()].fill(ground);
            }
            touched.fill(0..0);
            return Some(());
        }
        self.bytes.resize(size, 0);
        self.bytes.as_chunks_mut::<4>().0.fill(ground);
        self.touched = vec![0..0; height];
        (self.width, self.ground) = (width, ground);
        Some(())
    }

    /// The pixels of a row from a place on, to draw as many on, and where in the row the first of them is: what is beyond the
    /// edges is left out.
    pub(super) fn span(&mut self, (left, y): (i32, i32), pixels: usize) -> Option<(usize, &mut [u8])> {
        let y = usize::try_from(y).ok().filter(|y| *y < self.touched.len())?;
        let begins = usize::try_from(left).unwrap_or_default();
        let cut = usize::try_from(left.min(0).unsigned_abs()).unwrap_or(usize::MAX);
        let ends = begins.saturating_add(pixels.checked_sub(cut)?).min(self.width);
        self.touch(y, begins..ends)?;
        let row = y * self.width;
        Some((cut, self.bytes.get_mut((row + begins) * 4..(row + ends) * 4)?))
    }

    /// All of it, to draw on between two corners, with a pixel around them for soft edges.
    pub(super) fn between(&mut self, (left, top): At, (right, bottom): At) -> Option<PixmapMut<'_>> {
        let height = self.touched.len();
        let columns = pixel(left - 1.0, self.width)..pixel(right + 2.0, self.width);
        for y in pixel(top - 1.0, height)..pixel(bottom + 2.0, height) {
            self.touch(y, columns.clone());
        }
        PixmapMut::from_bytes(&mut self.bytes, u32::try_from(self.width).ok()?, u32::try_from(height).ok()?)
    }

    fn touch(&mut self, row: usize, columns: Range<usize>) -> Option<()> {
        let span = self.touched.get_mut(row)?;
        if columns.is_empty() {
            return None;
        }
        *span = if Range::is_empty(span) { columns } else { span.start.min(columns.start)..span.end.max(columns.end) };
        Some(())
    }

    /// The rows with the pixels of each that are not ground for certain, and where they begin.
    pub(super) fn rows(&self) -> impl Iterator<Item = (&[Pixel], Range<usize>)> {
        let (pixels, _) = self.bytes.as_chunks::<4>();
        pixels.chunks_exact(self.width.max(1)).zip(self.touched.iter().cloned())
    }

    /// The colour of what nothing was drawn on.
    pub(super) const fn ground(&self) -> Pixel {
        self.ground
    }
}

/// The pixel of a place, at most this one.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a number that does not fit becomes the nearest"
)]
fn pixel(place: f32, most: usize) -> usize {
    (place.max(0.0) as usize).min(most)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every pixel that is not ground, as its row and its column.
    fn drawn(canvas: &Canvas) -> Vec<(usize, usize)> {
        let rows = canvas.bytes.as_chunks::<4>().0.chunks_exact(canvas.width).enumerate();
        rows.flat_map(|(y, row)| {
            let drawn = row.iter().enumerate().filter(|(_, pixel)| **pixel != canvas.ground());
            drawn.map(move |(x, _)| (y, x)).collect::<Vec<_>>()
        })
        .collect()
    }

    #[test]
    fn what_is_drawn_is_known_and_gone_in_the_next_picture() {
        let mut canvas = Canvas::default();
        let paper = Colour([9, 8, 7]);
        canvas.clear((4, 3), paper).unwrap();
        for (at, pixels, begins, kept) in [((-1, 0), 3, 1, 2), ((2, 1), 5, 0, 2)] {
            let (cut, span) = canvas.span(at, pixels).unwrap();
            assert_eq!((cut, span.len()), (begins, kept * 4));
            span.fill(1);
        }
        assert!(
            canvas.span((4, 0), 1).is_none() && canvas.span((0, 3), 1).is_none() && canvas.span((-3, 0), 2).is_none()
        );
        assert_eq!(drawn(&canvas), [(0, 0), (0, 1), (1, 2), (1, 3)]);
        assert_eq!(canvas.rows().map(|(_, span)| span).collect::<Vec<_>>(), [0..2, 2..4, 0..0]);
        canvas.clear((4, 3), paper).unwrap();
        assert_eq!(drawn(&canvas), []);
        canvas.clear((2, 2), Colour([1, 1, 1])).unwrap();
        assert_eq!((drawn(&canvas), canvas.bytes.len()), (Vec::new(), 16));
    }
}
