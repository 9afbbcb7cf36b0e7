//! How a text breaks into lines, remembered. A card is tried in many sizes until its sides are full, and in most of them a
//! text breaks as it did before.

use parley::layout::Line;

/// Widths are compared so finely, in points at the size at which texts are shaped: sums of advances differ in their last
/// digits.
const HAIR: f32 = 0.01;

/// The measures of a line, at the size at which texts are shaped.
#[derive(Debug, Clone, Copy)]
pub(super) struct LineSize {
    /// How high.
    pub(super) height: f32,
    /// Where its letters stand, from its upper edge.
    pub(super) baseline: f32,
    /// How wide its letters are together.
    pub(super) width: f32,
}

impl LineSize {
    /// The measures of a line.
    pub(super) fn of(line: &Line<'_, [u8; 4]>) -> Self {
        let metrics = line.metrics();
        let baseline = metrics.baseline - metrics.block_min_coord;
        Self { height: metrics.line_height, baseline, width: metrics.advance }
    }
}

/// The lines of a text in all widths of a range.
#[derive(Debug, Clone)]
struct Broken {
    from: f32,
    to: f32,
    lines: Vec<LineSize>,
}

/// How a text breaks in the widths that were tried.
#[derive(Debug, Clone, Default)]
pub(super) struct Breaks(Vec<Broken>);

impl Breaks {
    /// The lines of the text in a width, where it is known that it breaks there as in a width that was tried.
    pub(super) fn in_width(&self, width: f32) -> Option<&[LineSize]> {
        self.0.iter().find(|broken| broken.from <= width && width <= broken.to).map(|broken| broken.lines.as_slice())
    }

    /// Remembers the lines of the text in a width. Each line takes as many words as it has room for, so in a narrower width
    /// that still has room for every line they are the same; one line alone is the same in every wider width, too.
    pub(super) fn remember<'a>(&mut self, width: f32, lines: impl Iterator<Item = Line<'a, [u8; 4]>>) {
        let mut from = 0.0_f32;
        let lines: Vec<LineSize> = lines
            .map(|line| {
                let metrics = line.metrics();
                from = from.max(metrics.advance - metrics.hanging_advance);
                LineSize::of(&line)
            })
            .collect();
        let to = if lines.len() == 1 { f32::INFINITY } else { width };
        self.0.push(Broken { from: (from + HAIR).min(width), to, lines });
    }
}
