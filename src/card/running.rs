//! What is in a row and goes on in the next one where the row is full: words, and outlines with their words.

use super::chips;
use super::flow::Strip;
use super::ink;
use super::setting::{Look, Setter, height};
use super::sheet::{At, Mark, Meaning, Paint};
use super::strokes::strokes;
use crate::caution::Action;
use crate::draw;

/// The space between two things in a row, as a share of the size of the letters.
const APART: f32 = 0.7;
/// The same behind a dot, the side of an outline, and the space behind it, as shares of the size of the letters.
const DOT: f32 = 0.25;
const SIDE: f32 = 1.15;
const BEHIND: f32 = 0.2;

/// Rows in the making.
pub(super) struct Running {
    width: f32,
    /// Where the next thing goes, from the upper left corner.
    at: At,
    /// The baseline of the row, from its upper edge; none where nothing stands in it yet.
    base: Option<f32>,
    strip: Strip,
}

/// What comes before words, and how wide it is with the space behind it.
#[derive(Default)]
struct Before {
    marks: Vec<Mark>,
    wide: f32,
}

impl Running {
    /// Rows of a width.
    pub(super) fn new(width: f32) -> Self {
        Self { width, at: (0.0, 0.0), base: None, strip: Strip::default() }
    }

    /// Puts down words; what is wider than a row is set in several lines.
    pub(super) fn words(&mut self, setter: &mut Setter<'_>, words: &str, look: Look, piece: usize) {
        self.put(setter, words, Before::default(), look, piece);
        self.at.0 += look.size * APART;
    }

    /// Puts down one of some words that belong together, with a dot between it and the next one.
    pub(super) fn one_of(&mut self, setter: &mut Setter<'_>, words: &str, last: bool, look: Look, piece: usize) {
        if last {
            return self.words(setter, words, look, piece);
        }
        if setter.is_mirrored() {
            // A dot behind words that are read from the left would stand at the wrong end of them.
            self.put(setter, words, Before::default(), look, piece);
            self.at.0 += look.size * DOT;
            self.put(setter, "·", Before::default(), look, piece);
        } else {
            self.put(setter, &format!("{words} ·"), Before::default(), look, piece);
        }
        self.at.0 += look.size * DOT;
    }

    /// Puts down a thing to do: its outline and its words; the first one has the triangle before it.
    pub(super) fn action(
        &mut self,
        setter: &mut Setter<'_>,
        act: (Action, &str),
        first: bool,
        look: Look,
        piece: usize,
    ) {
        let mut before = Before::default();
        let (side, draws) = (look.size * SIDE, setter.draws());
        if first {
            before.marks = if draws { chips::triangle(look.size) } else { Vec::new() };
            before.wide = look.size * 1.35;
        }
        if draws {
            let outline = Paint::Line(ink::INK, side / 15.0);
            let mark = Mark::decoration(strokes(draw::action_outline(act.0), side), outline);
            before.marks.push(mark.moved((before.wide, (look.leading - side) / 2.0)));
        }
        before.wide += side + look.size * BEHIND;
        self.put(setter, act.1, before, look, piece);
        self.at.0 += look.size * APART;
    }

    /// Puts down words with a box to tick before them.
    pub(super) fn ticked(&mut self, setter: &mut Setter<'_>, words: &str, look: Look, piece: usize) {
        let side = look.size * 0.72;
        let tick = || chips::tick_box(side).moved((0.3, (look.leading - side) / 2.0 + look.size * 0.08));
        let marks = setter.draws().then(tick).into_iter().collect();
        let before = Before { marks, wide: side + look.size * 0.3 };
        self.put(setter, words, before, look, piece);
        self.at.0 += look.size * APART;
    }

    /// All rows.
    pub(super) fn strip(self) -> Strip {
        self.strip
    }

    fn put(&mut self, setter: &mut Setter<'_>, words: &str, before: Before, look: Look, piece: usize) {
        // Each thing begins where the one before it ends, whichever way its words are read.
        let lines = setter.set_left(&[(words, look)], self.width - before.wide);
        let Some(first) = lines.first() else { return };
        let wide = before.wide + lines.iter().map(|line| line.width).fold(0.0, f32::max);
        if self.at.0 > 0.0 && self.at.0 + wide > self.width + 0.1 {
            self.turn();
        }
        let own = first.baseline;
        let base = *self.base.get_or_insert(own);
        let (x, mut y) = (self.at.0, self.at.1 + (base - own).max(0.0));
        self.strip.marks.extend(before.marks.into_iter().map(|mark| mark.moved((x, y))));
        let (several, low) = (lines.len() > 1, y + height(&lines));
        for line in lines {
            let tall = line.height;
            self.strip.marks.extend(line.marks((x + before.wide, y), Meaning::Piece(piece)));
            y += tall;
        }
        self.strip.height = self.strip.height.max(low);
        self.at.0 += wide;
        if several {
            self.turn();
        }
    }

    fn turn(&mut self) {
        self.at = (0.0, self.strip.height);
        self.base = None;
    }
}
