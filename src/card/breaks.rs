//! How a text breaks into lines, remembered. A card is tried in many sizes until its sides are full, and in most of them a
//! text breaks as it did before.

use std::sync::Arc;

use parley::layout::Line;

use super::set_line::{LineSize, SetLine};

/// Widths are compared so finely, in points at the size at which texts are shaped: sums of advances differ in their last
/// digits.
const HAIR: f32 = 0.01;

/// So many ways to break a text are remembered at most: one that stands on a thousand cards is tried in very many widths.
const MOST: usize = 24;

/// The lines of a text in all widths of a range.
struct Broken {
    from: f32,
    to: f32,
    sizes: Vec<LineSize>,
    /// The same lines with their glyphs, against their left edge, once they were set.
    set: Option<Arc<[SetLine]>>,
}

/// How a text breaks in the widths that were tried.
#[derive(Default)]
pub(super) struct Breaks(Vec<Broken>);

impl Broken {
    fn holds(&self, width: f32) -> bool {
        self.from <= width && width <= self.to
    }
}

impl Breaks {
    fn find(&self, width: f32) -> Option<&Broken> {
        self.0.iter().find(|broken| broken.holds(width))
    }

    /// The lines of the text in a width, where it is known that it breaks there as in a width that was tried.
    pub(super) fn in_width(&self, width: f32) -> Option<&[LineSize]> {
        self.find(width).map(|broken| broken.sizes.as_slice())
    }

    /// The same lines with their glyphs, where they were set.
    pub(super) fn set_in_width(&self, width: f32) -> Option<Arc<[SetLine]>> {
        self.find(width)?.set.clone()
    }

    /// Remembers the lines of the text in a width. Each line takes as many words as it has room for, so in a narrower width
    /// that still has room for every line they are the same; one line alone is the same in every wider width, too.
    pub(super) fn remember<'a>(&mut self, width: f32, lines: impl Iterator<Item = Line<'a, [u8; 4]>>) {
        if self.0.len() >= MOST {
            return;
        }
        let mut from = 0.0_f32;
        let sizes: Vec<LineSize> = lines
            .map(|line| {
                let metrics = line.metrics();
                from = from.max(metrics.advance - metrics.hanging_advance);
                LineSize::of(&line)
            })
            .collect();
        let to = if sizes.len() == 1 { f32::INFINITY } else { width };
        self.0.push(Broken { from: (from + HAIR).min(width), to, sizes, set: None });
    }

    /// Remembers the glyphs of these lines, too.
    pub(super) fn remember_set(&mut self, width: f32, set: &Arc<[SetLine]>) {
        if let Some(broken) = self.0.iter_mut().find(|broken| broken.holds(width)) {
            broken.set = Some(Arc::clone(set));
        }
    }
}
