//! The steps of a card: a number, a title, what to do first, the author's sentence, the mix beside it, and boxes to tick
//! for the coats.

use super::chips;
use super::composer::{Composer, put, put_beside, strips};
use super::flow::{Strip, set_keep};
use super::fonts::Voice;
use super::ink;
use super::measures::{CAUTION, FIGURE, GAP, STEP_TITLE, TEXT};
use super::running::Running;
use super::setting::{SetLine, Span, Wanted};
use super::sheet::{Mark, Paint, Role};
use super::strokes::strokes;
use super::to_do_part;
use crate::caution::Action;
use crate::draw;
use crate::tell::recipe::{PartLine, Recipe, StepLine};

/// The most coats that get boxes to tick.
const MOST_BOXES: u32 = 12;
/// The column with the numbers and the boxes, the side of a box, and the space from one to the next.
const NUMBERS: f32 = 27.0;
const BOX: f32 = 5.6;
const NEXT_BOX: f32 = 8.0;
/// How far down the boxes begin.
const BOXES: f32 = 17.0;
/// The room for amounts, between the picture of a product and its name, and for that picture.
const AMOUNT: f32 = 22.0;
const CHIP: f32 = 17.0;
/// The facts that are with the mix: how often, and what to wait for.
const WITH_MIX: [&str; 5] = ["coats", "deep", "between", "dry", "rest"];

/// A heading above the mix is chosen where it saves more than this, in points, and not for an error of rounding.
const WORTH_IT: f32 = 0.5;

/// Sets the steps of a recipe.
pub(super) fn compose(composer: &mut Composer<'_>, recipe: &Recipe<'_>) {
    if recipe.steps.is_empty() {
        return;
    }
    let title = composer.say("glance.steps");
    let (part, heading) = composer.heading(&title, None);
    let mut strips = Vec::new();
    let list = composer.outline.add(Role::Numbered, Some(part));
    for step in &recipe.steps {
        strips.extend(row(composer, step, list));
    }
    let least = composer.flow.first(&strips, 0.0);
    composer.begin(&title, heading, least);
    composer.flow.stack(strips);
}

/// The pieces of the text that a step is made of, in reading order.
struct Pieces {
    label: usize,
    title: usize,
    facts: usize,
    actions: Vec<usize>,
    notes: usize,
    mix: usize,
    waits: usize,
    sentence: usize,
}

impl Pieces {
    fn of(composer: &mut Composer<'_>, step: &StepLine, list: usize) -> Self {
        let entry = composer.outline.add(Role::Entry, Some(list));
        let label = composer.outline.add(Role::Label, Some(entry));
        let body = composer.outline.add(Role::Body, Some(entry));
        let paragraph = |composer: &mut Composer<'_>| composer.outline.add(Role::Paragraph, Some(body));
        let (title, facts) = (paragraph(composer), paragraph(composer));
        let actions = to_do_part::pieces(composer, &actions(step), Some(body));
        let [notes, mix, waits, sentence] = std::array::from_fn(|_| paragraph(composer));
        Self { label, title, facts, actions, notes, mix, waits, sentence }
    }
}

/// What to do; the author's own cautions stand beside it themselves.
fn actions(step: &StepLine) -> Vec<(Action, &'static str)> {
    let is_said = |action: &Action| *action == Action::AuthorNote && !step.notes.is_empty();
    step.actions.iter().filter(|(action, _)| !is_said(action)).copied().collect()
}

/// One step as a row that stays whole; one that is higher than a sheet is set line by line instead.
fn row(composer: &mut Composer<'_>, step: &StepLine, list: usize) -> Vec<Strip> {
    let pieces = Pieces::of(composer, step, list);
    let frame = composer.flow.frame;
    // Both ways are measured, and one is drawn.
    let wanted = composer.setter.want(Wanted::Measures);
    let mixes = mix(composer, step, &pieces, mix_width(composer, step));
    let above = laid_out(composer, step, &pieces, (Head::Above, mixes.clone()));
    let beside = (!step.mix.is_empty()).then(|| laid_out(composer, step, &pieces, (Head::Beside, mixes)));
    composer.setter.want(wanted);
    let (head, row) = match beside {
        Some(beside) if above.height >= beside.height - WORTH_IT => (Head::Beside, beside),
        _ => (Head::Above, above),
    };
    if row.height > frame.bottom - frame.next_top {
        return line_by_line(composer, step, &pieces);
    }
    if wanted == Wanted::Measures {
        return vec![row];
    }
    let mixes = mix(composer, step, &pieces, mix_width(composer, step));
    vec![laid_out(composer, step, &pieces, (head, mixes))]
}

/// Where the title and what to do stand.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Head {
    /// Beside the mix.
    Beside,
    /// Above it, across the whole row.
    Above,
}

/// How wide the mix is, where there is one.
fn mix_width(composer: &Composer<'_>, step: &StepLine) -> f32 {
    if step.mix.is_empty() { 0.0 } else { composer.width() * composer.measures.mix }
}

fn laid_out(composer: &mut Composer<'_>, step: &StepLine, pieces: &Pieces, (head, mixes): (Head, Strip)) -> Strip {
    let (width, scale) = (composer.width(), composer.measures.scale);
    let numbers = NUMBERS * scale;
    let marks = composer.drawn(|| [Mark::line((0.0, 0.0), (width, 0.0), ink::HAIR, 0.5)]);
    let mut row = Strip { marks, ..Strip::default() };
    let number = number(composer, step);
    put_beside(&mut row, number, (0.0, 1.0), pieces.label);
    row.marks.extend(composer.drawn(|| coat_boxes(step.coats, scale)));
    let right = mix_width(composer, step);
    let left = width - numbers - if right > 0.0 { right + GAP } else { 0.0 };
    row.height = 1.5;
    let top = row.height;
    let rows = heading(composer, step, pieces, if head == Head::Above { width - numbers } else { left });
    row.marks.extend(rows.marks.into_iter().map(|mark| mark.moved((numbers, top))));
    row.height += rows.height;
    let mix_top = if head == Head::Above { row.height } else { top };
    let at = (width - right, mix_top);
    row.marks.extend(mixes.marks.into_iter().map(|mark| mark.moved(at)));
    said(composer, step, &mut row, (numbers, left), pieces);
    row.height = row.height.max(mix_top + mixes.height).max(box_rows(step.coats, scale)) + 1.5;
    row
}

/// The title, how and where, and what to do first, in rows.
fn heading(composer: &mut Composer<'_>, step: &StepLine, pieces: &Pieces, width: f32) -> Strip {
    let mut rows = Running::new(width);
    let bold = composer.measures.look(Voice::Bold, STEP_TITLE, ink::INK);
    rows.words(&mut composer.setter, &step.title, bold, pieces.title);
    let soft = composer.measures.look(Voice::Label, TEXT, ink::SOFT);
    let facts = facts(step, composer.measures.is_close());
    for (at, fact) in facts.iter().enumerate() {
        rows.one_of(&mut composer.setter, fact, at + 1 == facts.len(), soft, pieces.facts);
    }
    to_do_part::put(composer, &mut rows, &actions(step), &pieces.actions);
    rows.strip()
}

/// The author's own cautions, and the one sentence.
fn said(composer: &mut Composer<'_>, step: &StepLine, row: &mut Strip, (left, width): (f32, f32), pieces: &Pieces) {
    let small = composer.measures.look(Voice::Text, CAUTION, ink::INK);
    let sign = small.size * 1.3;
    for note in &step.notes {
        let at = (left, row.height);
        row.marks.extend(composer.drawn(|| {
            let drawn = strokes(draw::action_outline(Action::AuthorNote), small.size * 1.1);
            [Mark::decoration(drawn, Paint::Line(ink::INK, small.size / 14.0)).moved(at)]
        }));
        let lines = composer.setter.set(&[(note, small)], width - sign);
        put(row, lines, left + sign, pieces.notes);
    }
    let lines = sentence(composer, step, width);
    put(row, lines, left, pieces.sentence);
}

fn line_by_line(composer: &mut Composer<'_>, step: &StepLine, pieces: &Pieces) -> Vec<Strip> {
    let width = composer.width();
    let mut all = strips(number(composer, step), 0.0, pieces.label);
    let bold = composer.measures.look(Voice::Bold, STEP_TITLE, ink::INK);
    let title = composer.setter.set(&[(&step.title, bold)], width);
    all.extend(strips(title, 0.0, pieces.title));
    let bare = StepLine { title: String::new(), ..step.clone() };
    all.push(heading(composer, &bare, pieces, width));
    for note in &step.notes {
        let small = composer.measures.look(Voice::Text, CAUTION, ink::INK);
        let lines = composer.setter.set(&[(note, small)], width);
        all.extend(strips(lines, 0.0, pieces.notes));
    }
    all.push(mix(composer, step, pieces, width));
    all.extend(strips(sentence(composer, step, width), 0.0, pieces.sentence));
    set_keep(&mut all, false);
    all
}

type Lines = Vec<SetLine>;

fn number(composer: &mut Composer<'_>, step: &StepLine) -> Lines {
    let look = composer.measures.look(Voice::Heading, FIGURE + 1.0, ink::MADDER);
    composer.setter.set_left(&[(&step.number.to_string(), look)], NUMBERS * composer.measures.scale)
}

fn sentence(composer: &mut Composer<'_>, step: &StepLine, width: f32) -> Lines {
    let look = composer.measures.look(Voice::Text, TEXT, ink::INK);
    composer.setter.set(&[(step.sentence.as_deref().unwrap_or_default(), look)], width)
}

/// The facts that are in the heading: those that are not with the mix. In little room the minutes are left out,
/// whose sum stands in the head of the card.
fn facts(step: &StepLine, close: bool) -> Vec<&str> {
    let alone = step.mix.is_empty();
    let stands = |key: &str| (alone || !WITH_MIX.contains(&key)) && !(close && key == "hands-on");
    step.facts.iter().filter(|fact| stands(fact.key)).map(|fact| fact.short.as_str()).collect()
}

/// The mix, with how often and what to wait for.
fn mix(composer: &mut Composer<'_>, step: &StepLine, pieces: &Pieces, width: f32) -> Strip {
    let mut strip = Strip::default();
    if step.mix.is_empty() {
        return strip;
    }
    let scale = composer.measures.scale;
    let mixed = step.mix.iter().any(|part| !part.amount.is_empty());
    let indent = if mixed { AMOUNT * scale } else { 0.0 };
    let text = composer.measures.look(Voice::Bold, TEXT, ink::INK);
    let big = composer.measures.look(Voice::Label, FIGURE, ink::INK);
    for part in &step.mix {
        let y = strip.height;
        let lines = part_line(composer, part, width - indent - CHIP * scale);
        let mut down = 0.0;
        if mixed {
            let amount = composer.setter.set_right(&[(&part.amount, big)], indent - 3.0 * scale);
            // Both stand on one line.
            let base = |lines: &Lines| lines.first().map_or(0.0, |line| line.baseline);
            down = (base(&amount) - base(&lines)).max(0.0);
            put_beside(&mut strip, amount, (CHIP * scale, y), pieces.mix);
        }
        let tall = 7.5 * scale;
        let at = (0.0, y + down + (text.leading - tall) / 2.0);
        let chip = || chips::swatch(part.kind, part.colour, tall).into_iter().map(|mark| mark.moved(at));
        strip.marks.extend(composer.drawn(chip));
        let low = put_beside(&mut strip, lines, (indent + CHIP * scale, y + down), pieces.mix);
        strip.height = if mixed { low.max(y + big.leading) } else { low };
    }
    let waits = step.facts.iter().filter(|fact| WITH_MIX.contains(&fact.key)).map(|fact| fact.short.as_str());
    let words: Vec<String> = step.load.as_deref().into_iter().chain(waits).map(with_units).collect();
    let look = composer.measures.look(Voice::Label, TEXT, ink::INK);
    let waits = composer.setter.set(&[(&words.join(" · "), look)], width);
    put(&mut strip, waits, 0.0, pieces.waits);
    strip
}

fn part_line(composer: &mut Composer<'_>, part: &PartLine, width: f32) -> Lines {
    let bold = composer.measures.look(Voice::Bold, TEXT, ink::INK);
    let label = composer.measures.look(Voice::Label, TEXT, ink::INK);
    let unit = part.unit.as_deref().map(|unit| format!("{unit} ")).unwrap_or_default();
    let load = part.load.as_deref().map(with_units).unwrap_or_default();
    let spans: [Span<'_>; 4] = [(&unit, label), (&part.name, bold), (" ", label), (&load, label)];
    let (from, to) = (usize::from(unit.is_empty()), if load.is_empty() { 2 } else { 4 });
    composer.setter.set(&spans[from..to], width)
}

/// A text of which no line ends between a figure and its unit, or within `5 × 50 drops`.
fn with_units(text: &str) -> String {
    let mut figure = false;
    let bound = text.chars().map(|letter| {
        let bound = if figure && letter == ' ' { '\u{a0}' } else { letter };
        figure = letter.is_ascii_digit() || letter == '×';
        bound
    });
    bound.collect()
}

/// Boxes below the number, three side by side, one for each coat.
fn coat_boxes(coats: u32, scale: f32) -> Vec<Mark> {
    let coats = if coats > MOST_BOXES { 0 } else { coats };
    let place = |at: u32| {
        let (column, line) = (u16::try_from(at % 3).unwrap_or(0), u16::try_from(at / 3).unwrap_or(0));
        ((0.5 + f32::from(column) * NEXT_BOX) * scale, (BOXES + f32::from(line) * NEXT_BOX) * scale)
    };
    (0..coats).map(|at| chips::tick_box(BOX * scale).moved(place(at))).collect()
}

/// How far down the boxes go.
fn box_rows(coats: u32, scale: f32) -> f32 {
    let rows = if coats > MOST_BOXES { 0 } else { u16::try_from(coats.div_ceil(3)).unwrap_or(0) };
    (BOXES + f32::from(rows) * NEXT_BOX) * scale
}
