//! Sheets of paper and what fits on them, in points (1/72 inch).

use super::flow::Frame;
use super::fonts::Voice;
use super::setting::Look;
use super::sheet::At;
use crate::measure::Colour;
use crate::trade::Paper;

/// The measures of a card on a paper.
#[derive(Debug, Clone, Copy)]
pub(super) struct Measures {
    /// Width and height of the sheet.
    pub(super) sheet: At,
    /// The margin all around.
    pub(super) margin: f32,
    /// How many columns cautions and lists are set in.
    pub(super) columns: usize,
    /// How many areas stand side by side.
    pub(super) areas: usize,
    /// The share of the width that the mixes take.
    pub(super) mix: f32,
    /// How many sides the type grows to fill.
    pub(super) sides: usize,
    /// How much room there is.
    pub(super) room: Room,
    /// How much larger than the least that can be read at arm's length.
    pub(super) scale: f32,
}

/// The space between columns.
pub(super) const GAP: f32 = 12.0;
/// The margin: 7 mm, which every printer leaves.
const MARGIN: f32 = 20.0;
/// The head of every sheet but the first.
const HEAD: f32 = 16.0;
/// The foot of every sheet.
const FOOT: f32 = 12.0;
/// Running text, titles of steps, cautions, titles and figures at their least, in points.
pub(super) const TEXT: f32 = 10.0;
pub(super) const STEP_TITLE: f32 = 11.0;
pub(super) const CAUTION: f32 = 9.0;
pub(super) const TITLE: f32 = 19.0;
pub(super) const HEADING: f32 = 12.0;
pub(super) const FIGURE: f32 = 12.5;

/// How much room there is for a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Room {
    /// Enough.
    Plain,
    /// Little: long texts are set in narrow letters of the same size, chips are small, and what the figures of the whole
    /// recipe say already is not said again at each step.
    Close,
}

impl Measures {
    /// The measures of a paper: ISO 216 for A4 and A5, ANSI/ASME Y14.1 for letter.
    pub(super) fn of(paper: Paper, room: Room, scale: f32) -> Self {
        let (sheet, columns, areas, mix, sides) = match paper {
            Paper::A4 => ((595.28, 841.89), 3, 4, 0.345, 2),
            Paper::A5 => ((419.53, 595.28), 2, 2, 0.40, 4),
            Paper::Letter => ((612.0, 792.0), 3, 4, 0.345, 2),
        };
        Self { sheet, margin: MARGIN, columns, areas, mix, sides, room, scale }
    }

    /// A look of a size, which grows with the scale.
    pub(super) fn look(&self, voice: Voice, size: f32, colour: Colour) -> Look {
        let size = (size * self.scale).max(CAUTION);
        let apart = if voice == Voice::Label { 1.1 } else { 1.17 } - if self.is_close() { 0.045 } else { 0.0 };
        Look { leading: size * apart, ..Look::new(voice, size, colour) }
    }

    /// Whether there is little room.
    pub(super) fn is_close(&self) -> bool {
        self.room == Room::Close
    }

    /// The voice of the texts that are long.
    pub(super) fn long(&self) -> Voice {
        if self.is_close() { Voice::Label } else { Voice::Text }
    }

    /// The room for text on its sheets.
    pub(super) fn frame(&self) -> Frame {
        Frame {
            left: self.margin,
            top: self.margin,
            next_top: self.margin + HEAD,
            width: self.sheet.0 - 2.0 * self.margin,
            bottom: self.sheet.1 - self.margin - FOOT,
        }
    }
}
