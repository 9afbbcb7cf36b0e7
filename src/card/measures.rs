//! Sheets of paper and what fits on them, in points (1/72 inch).

use super::flow::Frame;
use super::sheet::At;
use crate::trade::Paper;

/// The measures of a card on a paper.
#[derive(Debug, Clone, Copy)]
pub(super) struct Measures {
    /// Width and height of the sheet.
    pub(super) sheet: At,
    /// The margin all around.
    pub(super) margin: f32,
    /// The size of the title.
    pub(super) title: f32,
    /// How many columns cautions and lists are set in.
    pub(super) columns: usize,
    /// How many areas stand side by side.
    pub(super) areas: usize,
    /// The width of the column with the mixes.
    pub(super) mix: f32,
}

/// The space between columns.
pub(super) const GAP: f32 = 14.0;
/// The column with the numbers of the steps.
pub(super) const NUMBERS: f32 = 30.0;
/// The head of every sheet but the first.
const HEAD: f32 = 16.0;
/// The foot of every sheet.
const FOOT: f32 = 12.0;

impl Measures {
    /// The measures of a paper: ISO 216 for A4 and A5, ANSI/ASME Y14.1 for letter.
    pub(super) fn of(paper: Paper) -> Self {
        match paper {
            Paper::A4 => Self { sheet: (595.28, 841.89), margin: 26.0, title: 22.0, columns: 3, areas: 4, mix: 166.0 },
            Paper::A5 => Self { sheet: (419.53, 595.28), margin: 24.0, title: 17.0, columns: 2, areas: 4, mix: 134.0 },
            Paper::Letter => {
                Self { sheet: (612.0, 792.0), margin: 34.0, title: 22.0, columns: 3, areas: 4, mix: 186.0 }
            }
        }
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
