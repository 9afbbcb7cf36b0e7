//! The steps of a card: a number, a title, how and where, the mix beside it, and boxes to tick for the coats.

use super::chips;
use super::composer::{Composer, put, put_beside, strips};
use super::flow::{Strip, set_keep};
use super::fonts::Voice;
use super::ink;
use super::measures::{GAP, NUMBERS};
use super::setting::{Look, Span, height};
use super::sheet::{Mark, Role};
use crate::tell::recipe::{PartLine, Recipe, StepLine};

/// The most coats that get boxes to tick.
const MOST_BOXES: u32 = 12;
/// The side of such a box, and the space from one to the next.
const BOX: f32 = 5.6;
const NEXT_BOX: f32 = 8.0;
/// The warning triangle with the space behind it.
const SIGN: f32 = 11.0;
/// The swatch of a paint with the space behind it.
const CHIP: f32 = 16.0;

/// Sets the steps of a recipe.
pub(super) fn compose(composer: &mut Composer<'_>, recipe: &Recipe<'_>) {
    if recipe.steps.is_empty() {
        return;
    }
    let title = composer.say("glance.steps");
    let (part, mut strips) = composer.heading(&title, None);
    let list = composer.outline.add(Role::Numbered, Some(part));
    for step in &recipe.steps {
        strips.extend(row(composer, step, list));
    }
    composer.flow.stack(strips);
}

/// The pieces of the text that a step is made of.
struct Pieces {
    label: usize,
    title: usize,
    facts: usize,
    mix: usize,
    cautions: usize,
}

impl Pieces {
    fn of(composer: &mut Composer<'_>, list: usize) -> Self {
        let outline = &mut composer.outline;
        let entry = outline.add(Role::Entry, Some(list));
        let label = outline.add(Role::Label, Some(entry));
        let body = outline.add(Role::Body, Some(entry));
        let mut paragraph = || outline.add(Role::Paragraph, Some(body));
        Self { label, title: paragraph(), facts: paragraph(), mix: paragraph(), cautions: paragraph() }
    }
}

/// One step as a row that stays whole; one that is higher than a sheet is set line by line instead.
fn row(composer: &mut Composer<'_>, step: &StepLine, list: usize) -> Vec<Strip> {
    let pieces = Pieces::of(composer, list);
    let frame = composer.flow.frame;
    let row = side_by_side(composer, step, &pieces);
    if row.height <= frame.bottom - frame.next_top {
        return vec![row];
    }
    line_by_line(composer, step, &pieces)
}

fn side_by_side(composer: &mut Composer<'_>, step: &StepLine, pieces: &Pieces) -> Strip {
    let width = composer.width();
    let mut row = Strip { marks: vec![Mark::line((0.0, 0.0), (width, 0.0), ink::HAIR, 0.5)], ..Strip::default() };
    let number = number(composer, step);
    put_beside(&mut row, number, (0.0, 2.0), pieces.label);
    row.marks.extend(coat_boxes(step.coats));
    let left = width - composer.measures.mix - GAP - NUMBERS;
    row.height = 2.0;
    let title = title(composer, step, left);
    put(&mut row, title, NUMBERS, pieces.title);
    let mix = mix(composer, step, &mut row, pieces.mix);
    // Beside the mix where that makes the row no higher, otherwise below it.
    let (narrow_facts, wide_facts) = (facts(composer, step, left), facts(composer, step, width - NUMBERS));
    if row.height.max(mix) + height(&wide_facts) < row.height + height(&narrow_facts) {
        row.height = row.height.max(mix);
        put(&mut row, wide_facts, NUMBERS, pieces.facts);
    } else {
        put(&mut row, narrow_facts, NUMBERS, pieces.facts);
    }
    let beside = cautions(composer, step, left - SIGN);
    let below = cautions(composer, step, width - NUMBERS - SIGN);
    let (narrow, wide) = (row.height + height(&beside), row.height.max(mix) + height(&below));
    let cautions = if narrow.max(mix) <= wide {
        beside
    } else {
        row.height = row.height.max(mix);
        below
    };
    if !cautions.is_empty() {
        let sign = chips::triangle(8.0).into_iter().map(|mark| mark.moved((NUMBERS, row.height + 1.5)));
        row.marks.extend(sign.collect::<Vec<_>>());
    }
    put(&mut row, cautions, NUMBERS + SIGN, pieces.cautions);
    row.height = row.height.max(mix);
    row.height = row.height.max(box_rows(step.coats)) + 1.5;
    row
}

fn line_by_line(composer: &mut Composer<'_>, step: &StepLine, pieces: &Pieces) -> Vec<Strip> {
    let width = composer.width();
    let mut all = strips(number(composer, step), 0.0, pieces.label);
    all.extend(strips(title(composer, step, width), 0.0, pieces.title));
    all.extend(strips(facts(composer, step, width), 0.0, pieces.facts));
    for part in &step.mix {
        let lines = part_line(composer, part, None, width);
        all.extend(strips(lines, 0.0, pieces.mix));
    }
    all.extend(strips(cautions(composer, step, width), 0.0, pieces.cautions));
    set_keep(&mut all, false);
    all
}

type Lines = Vec<super::setting::SetLine>;

fn number(composer: &mut Composer<'_>, step: &StepLine) -> Lines {
    composer.setter.set(&[(&step.number.to_string(), Look::new(Voice::Heading, 15.0, ink::MADDER))], NUMBERS)
}

fn title(composer: &mut Composer<'_>, step: &StepLine, width: f32) -> Lines {
    composer.setter.set(&[(&step.title, Look::new(Voice::Bold, 9.5, ink::INK))], width)
}

fn facts(composer: &mut Composer<'_>, step: &StepLine, width: f32) -> Lines {
    let look = Look { leading: 10.6, ..Look::new(Voice::Label, 8.8, ink::INK) };
    let mut lines = composer.setter.set(&[(&step.facts.join(" · "), look)], width);
    if let Some(says) = &step.says {
        let plain = Look { leading: 10.6, ..Look::new(Voice::Text, 8.5, ink::INK) };
        lines.extend(composer.setter.set(&[(says, plain)], width));
    }
    for change in &step.changed {
        let soft = Look { leading: 9.5, ..Look::new(Voice::Text, 7.5, ink::SOFT) };
        lines.extend(composer.setter.set(&[(change, soft)], width));
    }
    lines
}

fn cautions(composer: &mut Composer<'_>, step: &StepLine, width: f32) -> Lines {
    if step.to_do.is_empty() {
        return Vec::new();
    }
    let bold = Look { leading: 10.0, ..Look::new(Voice::Bold, 7.5, ink::INK) };
    let narrow = Look { leading: 10.0, ..Look::new(Voice::Label, 8.5, ink::INK) };
    let (first, rest) = step.to_do.split_once(": ").unwrap_or(("", &step.to_do));
    composer.setter.set(&[(&format!("{first}:"), bold), (" ", narrow), (rest, narrow)], width)
}

/// The mix in its own column; gives how far down it goes.
fn mix(composer: &mut Composer<'_>, step: &StepLine, row: &mut Strip, piece: usize) -> f32 {
    let width = composer.measures.mix;
    let left = composer.width() - width;
    let mixed = step.mix.iter().any(|part| !part.amount.is_empty());
    let indent = if mixed { 30.0 } else { 0.0 };
    let mut y = if mixed { 1.0 } else { 3.5 };
    let last = step.mix.len().saturating_sub(1);
    for (at, part) in step.mix.iter().enumerate() {
        if mixed {
            let big = Look { leading: 16.0, ..Look::new(Voice::Label, 15.0, ink::INK) };
            let amount = composer.setter.set_right(&[(&part.amount, big)], indent - 6.0);
            put_beside(row, amount, (left, y), piece);
        }
        let down = if mixed { 3.0 } else { 0.0 };
        let chip = chips::swatch(part.colour).moved((left + indent, y + down + 2.2));
        row.marks.push(chip);
        let load = step.load.as_deref().filter(|_| at == last);
        let lines = part_line(composer, part, load, width - indent - CHIP);
        y = put_beside(row, lines, (left + indent + CHIP, y + down), piece).max(y + if mixed { 14.5 } else { 0.0 });
    }
    y
}

fn part_line(composer: &mut Composer<'_>, part: &PartLine, load: Option<&str>, width: f32) -> Lines {
    let bold = Look { leading: 11.0, ..Look::new(Voice::Bold, 8.8, ink::INK) };
    let label = Look { leading: 11.0, ..Look::new(Voice::Label, 9.0, ink::INK) };
    let soft = Look { colour: ink::SOFT, ..label };
    let drops = part.drops.as_deref().unwrap_or_default();
    let load = load.unwrap_or_default();
    let spans: [Span<'_>; 5] = [(&part.name, bold), ("  ", label), (drops, label), (" ", label), (load, soft)];
    composer.setter.set(&spans, width)
}

/// Boxes below the number, three side by side, one for each coat.
fn coat_boxes(coats: u32) -> Vec<Mark> {
    let coats = if coats > MOST_BOXES { 0 } else { coats };
    let place = |at: u32| {
        let (column, line) = (u16::try_from(at % 3).unwrap_or(0), u16::try_from(at / 3).unwrap_or(0));
        (0.5 + f32::from(column) * NEXT_BOX, 23.0 + f32::from(line) * NEXT_BOX)
    };
    (0..coats).map(|at| chips::tick_box(BOX).moved(place(at))).collect()
}

/// How far down the boxes go.
fn box_rows(coats: u32) -> f32 {
    let rows = if coats > MOST_BOXES { 0 } else { u16::try_from(coats.div_ceil(3)).unwrap_or(0) };
    23.0 + f32::from(rows) * NEXT_BOX
}
