//! A line of text that has been set.

use std::sync::Arc;

use parley::layout::Line;

use super::sheet::{At, Mark, Meaning, Run, What};

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

/// A line that has been set: its measures, and its marks from its upper left corner.
#[derive(Debug, Clone)]
pub(super) struct SetLine {
    /// How high.
    pub(super) height: f32,
    /// Where its letters stand, from its upper edge.
    pub(super) baseline: f32,
    /// How wide its letters are together.
    pub(super) width: f32,
    /// The marks; none where it is only measured.
    pub(super) runs: Vec<Run>,
}

impl SetLine {
    /// A line of which only the measures are known, so many times larger than they are.
    pub(super) fn measured(size: LineSize, larger: f32) -> Self {
        let LineSize { height, baseline, width } = size;
        Self { height: height * larger, baseline: baseline * larger, width: width * larger, runs: Vec::new() }
    }

    /// The line, so many times larger.
    pub(super) fn times(&self, larger: f32) -> Self {
        let run = |run: &Run| Run {
            text: Arc::clone(&run.text),
            font: run.font,
            size: run.size * larger,
            colour: run.colour,
            at: (run.at.0 * larger, run.at.1 * larger),
            glyphs: run.glyphs.iter().map(|glyph| glyph.times(larger)).collect(),
        };
        Self {
            height: self.height * larger,
            baseline: self.baseline * larger,
            width: self.width * larger,
            runs: self.runs.iter().map(run).collect(),
        }
    }

    /// The line with its runs in reverse order, so that they are in their own again when each is put the other way round.
    pub(super) fn reversed(mut self) -> Self {
        // The space behind the last word of a line hangs over its edge and is no part of it.
        let ends = self.runs.iter().filter_map(Run::ends);
        let (left, right) =
            ends.fold((f32::INFINITY, f32::NEG_INFINITY), |(left, right), (from, to)| (left.min(from), right.max(to)));
        if left > right {
            return self;
        }
        for run in &mut self.runs {
            run.at.0 = left + right - run.right();
        }
        self
    }

    /// The marks of the line at a place, as part of a piece of the text.
    pub(super) fn marks(self, at: At, meaning: Meaning) -> impl Iterator<Item = Mark> {
        self.runs.into_iter().map(move |run| Mark { what: What::Text(run), meaning }.moved(at))
    }
}
