//! A card as plain marks on sheets, before it becomes a PDF or a picture: lines of set text and shapes, each with
//! its place, and what it means to somebody who can't see it.

use std::ops::Range;
use std::sync::Arc;

use crate::measure::Colour;

/// A point, in points (1/72 inch) from the upper left corner.
pub(super) type At = (f32, f32);

/// A line of set text in one font, size and colour.
#[derive(Debug, Clone)]
pub(super) struct Run {
    /// The text that the ranges of the glyphs count in.
    pub(super) text: Arc<str>,
    /// The font, by its position.
    pub(super) font: usize,
    /// The size, in points.
    pub(super) size: f32,
    /// The colour.
    pub(super) colour: Colour,
    /// Where its baseline begins.
    pub(super) at: At,
    /// Its glyphs, from left to right.
    pub(super) glyphs: Vec<Glyph>,
}

impl Run {
    /// Where its letters begin and end, without spaces around them.
    pub(super) fn ends(&self) -> Option<At> {
        let mut x = self.at.0;
        let mut ends: Option<At> = None;
        for glyph in &self.glyphs {
            let next = x + glyph.advance;
            if self.text.get(glyph.range.clone()).is_some_and(|letters| !letters.trim().is_empty()) {
                ends = Some((ends.map_or(x, |(from, _)| from), next));
            }
            x = next;
        }
        ends
    }

    /// Where it ends.
    pub(super) fn right(&self) -> f32 {
        self.at.0 + self.glyphs.iter().map(|glyph| glyph.advance).sum::<f32>()
    }
}

/// One glyph; lengths in points.
#[derive(Debug, Clone)]
pub(super) struct Glyph {
    /// Its number in the font.
    pub(super) id: u32,
    /// How far the next one stands.
    pub(super) advance: f32,
    /// How far it is moved from its place, to the right and up.
    pub(super) moved: At,
    /// The bytes of the text that it shows.
    pub(super) range: Range<usize>,
}

impl Glyph {
    /// The glyph, so many times larger.
    pub(super) fn times(&self, larger: f32) -> Self {
        let moved = (self.moved.0 * larger, self.moved.1 * larger);
        Self { id: self.id, advance: self.advance * larger, moved, range: self.range.clone() }
    }
}

/// A filled or drawn shape.
#[derive(Debug, Clone)]
pub(super) struct Shape {
    /// Its outlines: each a polygon, or a line where nothing is filled.
    pub(super) outlines: Vec<Vec<At>>,
    /// How it is drawn.
    pub(super) paint: Paint,
}

/// How a shape is drawn.
#[derive(Debug, Clone, Copy)]
pub(super) enum Paint {
    /// Filled; where outlines lie in each other, the inner one is a hole.
    Fill(Colour),
    /// Drawn as closed outlines, so many points wide.
    Outline(Colour, f32),
    /// Drawn as open lines, so many points wide.
    Line(Colour, f32),
}

/// A photo on paper.
#[derive(Debug, Clone)]
pub(super) struct PaperPhoto {
    /// Its file.
    pub(super) jpeg: Arc<[u8]>,
    /// How many pixels it is wide and tall.
    pub(super) pixels: (usize, usize),
    /// Its upper left corner.
    pub(super) at: At,
    /// Its width and height.
    pub(super) size: At,
}

/// A mark and what it belongs to.
#[derive(Debug, Clone)]
pub(super) struct Mark {
    /// What is seen.
    pub(super) what: What,
    /// What it means.
    pub(super) meaning: Meaning,
}

/// What is seen of a mark.
#[derive(Debug, Clone)]
pub(super) enum What {
    /// Text.
    Text(Run),
    /// A shape.
    Shape(Shape),
    /// A photo.
    Photo(PaperPhoto),
}

/// What a mark means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Meaning {
    /// Part of the look alone.
    Decoration,
    /// The head or the foot of a sheet, which is not read again on every sheet.
    Margin,
    /// Part of the text: the piece with this number.
    Piece(usize),
}

impl Mark {
    /// A shape that is part of the look alone.
    pub(super) fn decoration(outlines: Vec<Vec<At>>, paint: Paint) -> Self {
        Self { what: What::Shape(Shape { outlines, paint }), meaning: Meaning::Decoration }
    }

    /// A fine line between two points.
    pub(super) fn line(from: At, to: At, colour: Colour, width: f32) -> Self {
        Self::decoration(vec![vec![from, to]], Paint::Line(colour, width))
    }

    /// The same mark elsewhere.
    pub(super) fn moved(mut self, (dx, dy): At) -> Self {
        let step = |at: &mut At| *at = (at.0 + dx, at.1 + dy);
        match &mut self.what {
            What::Text(run) => step(&mut run.at),
            What::Photo(photo) => step(&mut photo.at),
            What::Shape(shape) => shape.outlines.iter_mut().flatten().for_each(step),
        }
        self
    }

    /// The same mark on a sheet so wide that is laid out from the right: its place is the other way round, and what is
    /// drawn for the look alone. What is written, photographed or read by a camera is not.
    pub(super) fn mirrored(mut self, width: f32) -> Self {
        let has_meaning = self.meaning != Meaning::Decoration;
        match &mut self.what {
            What::Shape(shape) if has_meaning => {
                let all = shape.outlines.iter().flatten().map(|at| at.0);
                let (left, right) =
                    all.fold((f32::INFINITY, f32::NEG_INFINITY), |(left, right), x| (left.min(x), right.max(x)));
                shape.outlines.iter_mut().flatten().for_each(|at| at.0 += width - right - left);
            }
            What::Text(run) => run.at.0 = width - run.right(),
            What::Photo(photo) => photo.at.0 = width - photo.at.0 - photo.size.0,
            What::Shape(shape) => shape.outlines.iter_mut().flatten().for_each(|at| at.0 = width - at.0),
        }
        self
    }
}

/// A rectangle as an outline.
pub(super) fn rectangle((left, top): At, width: f32, height: f32) -> Vec<At> {
    vec![(left, top), (left + width, top), (left + width, top + height), (left, top + height)]
}

/// What a piece of the text is, for readers that speak it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Role {
    /// The title of the card, in words.
    Title(String),
    /// The heading of a part, in words.
    Heading(String),
    /// A part with its heading.
    Part,
    /// A paragraph.
    Paragraph,
    /// A numbered list.
    Numbered,
    /// A list without numbers.
    List,
    /// An entry of a list.
    Entry,
    /// The number in front of an entry.
    Label,
    /// What an entry says.
    Body,
    /// A picture, with words that say what it shows.
    Figure(String),
}

/// A piece of the text and what it is part of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Piece {
    /// What it is.
    pub(super) role: Role,
    /// The piece around it.
    pub(super) inside: Option<usize>,
    /// The language, where it is not that of the card.
    pub(super) language: Option<&'static str>,
}

/// The pieces of a text in reading order.
#[derive(Debug, Clone, Default)]
pub(super) struct Outline {
    /// The pieces; each stands behind the one that it is part of.
    pub(super) pieces: Vec<Piece>,
}

impl Outline {
    /// A new piece inside another one.
    pub(super) fn add(&mut self, role: Role, inside: Option<usize>) -> usize {
        self.add_in(role, inside, None)
    }

    /// A new piece in another language.
    pub(super) fn add_in(&mut self, role: Role, inside: Option<usize>, language: Option<&'static str>) -> usize {
        self.pieces.push(Piece { role, inside, language });
        self.pieces.len() - 1
    }
}

/// A whole card.
#[derive(Debug)]
pub(super) struct Card {
    /// Width and height of a sheet.
    pub(super) size: At,
    /// The marks of each sheet, in reading order.
    pub(super) sheets: Vec<Vec<Mark>>,
    /// The pieces of the text.
    pub(super) outline: Outline,
    /// What it is called.
    pub(super) title: String,
    /// Who wrote it.
    pub(super) author: String,
    /// Its language.
    pub(super) language: String,
    /// The headings of its parts with their sheets and heights on them, for a reader's list of contents.
    pub(super) contents: Vec<(String, usize, f32)>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sheet_from_the_right_turns_places_and_no_code() {
        let shape = |meaning| Mark {
            what: What::Shape(Shape {
                outlines: vec![vec![(10.0, 0.0), (30.0, 5.0)]],
                paint: Paint::Fill(Colour([0; 3])),
            }),
            meaning,
        };
        let corners = |mark: Mark| match mark.mirrored(100.0).what {
            What::Shape(shape) => shape.outlines[0].clone(),
            _ => Vec::new(),
        };
        assert_eq!(corners(shape(Meaning::Decoration)), [(90.0, 0.0), (70.0, 5.0)]);
        assert_eq!(corners(shape(Meaning::Piece(1))), [(70.0, 0.0), (90.0, 5.0)]);
        let glyph = |range| Glyph { id: 1, advance: 4.0, moved: (0.0, 0.0), range };
        let run = Run {
            text: "ab ".into(),
            font: 0,
            size: 8.0,
            colour: Colour([0; 3]),
            at: (10.0, 0.0),
            glyphs: vec![glyph(0..1), glyph(1..2), glyph(2..3)],
        };
        assert_eq!((run.ends(), run.right()), (Some((10.0, 18.0)), 22.0));
        let What::Text(turned) = (Mark { what: What::Text(run), meaning: Meaning::Piece(0) }).mirrored(100.0).what
        else {
            panic!("text stays text");
        };
        assert_eq!((turned.at.0, turned.glyphs[0].range.clone()), (78.0, 0..1));
    }
}
