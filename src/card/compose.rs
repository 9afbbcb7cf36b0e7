//! From the words of a recipe to sheets: head and areas, what to do first, steps, cautions in full, what to have at hand.
//! The type grows until the sides are full.

use std::cell::RefCell;

use parley::Alignment;

use super::composer::Composer;
use super::flow::Flow;
use super::fonts::Voice;
use super::ink;
use super::kit::Kit;
use super::measures::{Measures, Room};
use super::photo::Photo;
use super::setting::{Look, SetLine, Setter, Span, Wanted};
use super::sheet::{At, Card, Mark, Meaning, Outline};
use super::type_case::TypeCase;
use super::{caution_part, head_part, needs_part, step_part, to_do_part};
use crate::tell::recipe::Recipe;
use crate::trade::Paper;

/// The type of a short recipe grows no further than this: 14 points.
const LARGEST: f32 = 1.4;
/// That of a very long one shrinks no further than this: 9.3 points, and no letter below 9.
const SMALLEST: f32 = 0.93;
/// The range of sizes is cut into so many: then the best is known to a fifth of a point.
const SIZES: u16 = 16;
/// So often a size is guessed from how full the sides are; then the range is halved.
const GUESSES: usize = 3;

/// What a card is made of.
pub(super) struct Layout<'a> {
    /// The fonts and the words of the interface.
    pub(super) kit: Kit<'a>,
    /// What it says.
    pub(super) recipe: &'a Recipe<'a>,
    /// Decides how the chips are cut.
    pub(super) slug: &'a str,
    /// Its language.
    pub(super) language: &'a str,
    /// The photo of the finished model.
    pub(super) photo: Option<Photo>,
    /// The code of the scheme's address, in a square whose side is 1.
    pub(super) code: Option<Vec<Vec<At>>>,
}

impl Layout<'_> {
    /// Lays it out on paper.
    pub(super) fn compose(&self, paper: Paper) -> Card {
        let case = RefCell::new(TypeCase::new(self.kit.fonts));
        let set = |room: Room, scale: f32| self.set(Measures::of(paper, room, scale), &case, Wanted::Measures);
        let sides = |card: &Composer<'_>| card.flow.sheets.len();
        let most = Measures::of(paper, Room::Plain, 1.0).sides;
        // What is too long is set closer, and at last a little smaller; if that is not enough, it fills the sides that it
        // needs.
        let tries = [(Room::Plain, 1.0, LARGEST), (Room::Close, 1.0, LARGEST), (Room::Close, SMALLEST, 1.0)];
        let fitting = tries.into_iter().find_map(|(room, from, to)| {
            let card = set(room, from);
            (sides(&card) <= most).then_some((card, room, from, to))
        });
        let (least, room, from, to) = fitting.unwrap_or_else(|| (set(Room::Plain, 1.0), Room::Plain, 1.0, LARGEST));
        let most = most.max(sides(&least));
        let size = |at: u16| (to - from).mul_add(f32::from(at) / f32::from(SIZES), from);
        // Text needs room as the square of its size.
        let guess = |card: &Composer<'_>, at: u16| {
            let full = card.flow.share_filled(most).max(f32::MIN_POSITIVE).sqrt().recip() * size(at);
            (0..SIZES).rev().find(|at| size(*at) <= full).unwrap_or_default()
        };
        let (mut fits, mut over) = (0, SIZES);
        let mut measured = places(&least);
        let mut next = guess(&least, 0);
        for round in 0.. {
            if over - fits < 2 {
                break;
            }
            let middle = if round < GUESSES { next.clamp(fits + 1, over - 1) } else { fits.midpoint(over) };
            let larger = set(room, size(middle));
            next = guess(&larger, middle);
            // Type that grows leaves room to write on.
            if sides(&larger) <= most && (size(middle) < 1.0 || needs_part::has_room_for_notes(&larger)) {
                fits = middle;
                measured = places(&larger);
            } else {
                over = middle;
            }
        }
        let mut best = self.set(Measures::of(paper, room, size(fits)), &case, Wanted::Glyphs);
        debug_assert!(are_same(&places(&best), &measured), "drawn at {:?}, measured at {measured:?}", places(&best));
        needs_part::notes(&mut best);
        best.margins(self.recipe);
        let sheets = std::mem::take(&mut best.flow.sheets).into_iter();
        Card {
            size: best.measures.sheet,
            sheets: sheets.map(|marks| best.setter.placed(marks, best.measures.sheet.0)).collect(),
            outline: best.outline,
            title: self.recipe.title.to_owned(),
            author: self.recipe.author.to_owned(),
            language: self.language.to_owned(),
            contents: best.contents,
        }
    }

    /// Sets it in type of one size.
    fn set<'b>(&'b self, measures: Measures, case: &'b RefCell<TypeCase>, wanted: Wanted) -> Composer<'b> {
        let Self { kit, recipe, slug, photo, code, .. } = self;
        let mut composer = Composer {
            setter: Setter::new(kit.fonts, self.language, case, wanted),
            words: kit.words,
            photo: photo.as_ref(),
            code: code.as_deref(),
            measures,
            outline: Outline::default(),
            flow: Flow::new(measures.frame()),
            contents: Vec::new(),
        };
        head_part::compose(&mut composer, recipe, slug);
        to_do_part::compose(&mut composer, recipe);
        step_part::compose(&mut composer, recipe);
        caution_part::compose(&mut composer, recipe);
        needs_part::compose(&mut composer, recipe);
        composer
    }
}

/// Where the parts of a card begin, and where it ends: on which side, and how far down.
fn places(card: &Composer<'_>) -> Vec<(usize, f32)> {
    let begin = card.contents.iter().map(|(_, sheet, y)| (sheet + 1, *y));
    begin.chain([(card.flow.sheets.len(), card.flow.y)]).collect()
}

/// Whether the parts of a card that is drawn are where they were when it was measured, to a part of a line.
fn are_same(drawn: &[(usize, f32)], measured: &[(usize, f32)]) -> bool {
    let same = |(one, other): (&(usize, f32), &(usize, f32))| one.0 == other.0 && (one.1 - other.1).abs() < 0.5;
    drawn.len() == measured.len() && drawn.iter().zip(measured).all(same)
}

impl Composer<'_> {
    /// The heads and feet, once the number of sheets is known.
    fn margins(&mut self, recipe: &Recipe<'_>) {
        let count = self.flow.sheets.len();
        let frame = self.flow.frame;
        let look = Look::new(Voice::Label, 9.0, ink::SOFT);
        let foot = format!("{} · {}", recipe.guide, recipe.author);
        let foot = match &recipe.address {
            Some(address) => format!("{foot} · {address}"),
            None => foot,
        };
        for at in 0..count {
            let number = format!("{} / {count}", at + 1);
            let mut marks = Vec::new();
            let low = frame.bottom + 2.0;
            let (left, right) = ((frame.left, low), (frame.left + frame.width, low));
            marks.push(Mark::line(left, right, ink::HAIR, 0.5));
            marks.extend(self.one_line(&[(&foot, look)], frame.width - 40.0, (frame.left, low + 2.5)));
            let numbered = self.setter.set_aligned(&[(&number, look)], frame.width, Alignment::Right);
            marks.extend(margin(numbered, (frame.left, low + 2.5)));
            if at > 0 {
                let bold = Look::new(Voice::Bold, 9.0, ink::INK);
                let top = self.measures.margin;
                marks.extend(self.one_line(&[(recipe.title, bold)], frame.width, (frame.left, top - 1.0)));
                let y = frame.next_top;
                marks.push(Mark::line((frame.left, y), (frame.left + frame.width, y), ink::HAIR, 0.5));
            }
            if let Some(sheet) = self.flow.sheets.get_mut(at) {
                sheet.extend(marks);
            }
        }
    }

    /// The first line of a text for the head or the foot.
    fn one_line(&mut self, spans: &[Span<'_>], width: f32, at: At) -> Vec<Mark> {
        margin(self.setter.set(spans, width), at)
    }
}

fn margin(lines: Vec<SetLine>, at: At) -> Vec<Mark> {
    lines.into_iter().take(1).flat_map(|line| line.marks(at, Meaning::Margin)).collect()
}
