//! A card in the making: what all parts of it set their text with.

use super::flow::{Flow, Strip, set_keep};
use super::fonts::Voice;
use super::ink;
use super::measures::{HEADING, Measures};
use super::photo::Photo;
use super::setting::{SetLine, Setter, Span, height};
use super::sheet::{At, Mark, Meaning, Outline, Role};
use crate::theme::Words;

/// A card in the making.
pub(super) struct Composer<'a> {
    /// Sets text.
    pub(super) setter: Setter<'a>,
    /// The words of the interface.
    pub(super) words: &'a Words,
    /// The photo of the finished model.
    pub(super) photo: Option<&'a Photo>,
    /// The code of the scheme's address, in a square whose side is 1.
    pub(super) code: Option<&'a [Vec<At>]>,
    /// The measures of the paper.
    pub(super) measures: Measures,
    /// The pieces of the text.
    pub(super) outline: Outline,
    /// The sheets.
    pub(super) flow: Flow,
    /// The headings, each with its sheet and its height there.
    pub(super) contents: Vec<(String, usize, f32)>,
}

impl Composer<'_> {
    /// The width of the text.
    pub(super) fn width(&self) -> f32 {
        self.flow.frame.width
    }

    /// Marks that are no text: none while only measures are wanted, so no height may follow from whether there are any.
    pub(super) fn drawn<M: IntoIterator<Item = Mark>>(&self, make: impl FnOnce() -> M) -> Vec<Mark> {
        if self.setter.draws() { make().into_iter().collect() } else { Vec::new() }
    }

    /// The words of the interface behind a key.
    pub(super) fn say(&self, key: &str) -> String {
        self.words.filled(key, &[])
    }

    /// Sets a paragraph that is one piece of the text; one strip a line, which stay together.
    pub(super) fn paragraph(&mut self, spans: &[Span<'_>], width: f32, piece: usize) -> Vec<Strip> {
        let lines = self.setter.set(spans, width);
        strips(lines, 0.0, piece)
    }

    /// Begins a part with its heading, where at least so much of what follows has room below it.
    pub(super) fn begin(&mut self, text: &str, heading: Vec<Strip>, least: f32) {
        self.flow.begin(heading, least);
        self.contents.push((text.to_owned(), self.flow.sheets.len() - 1, self.flow.y - HEADING));
    }

    /// The heading of a part, and the part for what follows, which is set before the heading is placed: only then one knows
    /// how much room it needs below it.
    pub(super) fn heading(&mut self, text: &str, sign: Option<Vec<Mark>>) -> (usize, Vec<Strip>) {
        let part = self.outline.add(Role::Part, None);
        let piece = self.outline.add(Role::Heading(text.to_owned()), Some(part));
        let shift = if sign.is_some() { 17.0 } else { 0.0 };
        let look = self.measures.look(Voice::Heading, HEADING, ink::INK);
        let mut strips = strips(self.setter.set(&[(text, look)], self.width() - shift), shift, piece);
        if let (Some(marks), Some(first)) = (sign, strips.first_mut()) {
            first.marks.splice(0..0, marks.into_iter().map(|mark| mark.moved((0.0, 1.5))));
        }
        strips.insert(0, Strip { keep: true, ..Strip::gap(6.0) });
        strips.push(Strip { keep: true, ..Strip::gap(2.0) });
        set_keep(&mut strips, true);
        (part, strips)
    }
}

/// One strip for each line, which keep together.
pub(super) fn strips(lines: Vec<SetLine>, shift: f32, piece: usize) -> Vec<Strip> {
    let count = lines.len();
    let lines = lines.into_iter().enumerate();
    lines
        .map(|(at, line)| Strip {
            height: line.height,
            keep: at + 1 < count,
            marks: line.marks((shift, 0.0), Meaning::Piece(piece)).collect(),
        })
        .collect()
}

/// Puts lines below what a strip holds already.
pub(super) fn put(strip: &mut Strip, lines: Vec<SetLine>, shift: f32, piece: usize) {
    for line in lines {
        let tall = line.height;
        strip.marks.extend(line.marks((shift, strip.height), Meaning::Piece(piece)));
        strip.height += tall;
    }
}

/// Puts lines beside what a strip holds, from its upper edge; gives how far down they go.
pub(super) fn put_beside(strip: &mut Strip, lines: Vec<SetLine>, at: At, piece: usize) -> f32 {
    let low = at.1 + height(&lines);
    let mut y = at.1;
    for line in lines {
        let tall = line.height;
        strip.marks.extend(line.marks((at.0, y), Meaning::Piece(piece)));
        y += tall;
    }
    low
}
