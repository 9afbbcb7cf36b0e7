//! From the words of a recipe to sheets: title and areas, cautions, steps, what to have at hand.

use parley::Alignment;

use super::chips;
use super::composer::{Composer, put, strips};
use super::flow::{Flow, Strip, column_width, set_keep};
use super::fonts::{Fonts, Voice};
use super::ink;
use super::measures::{GAP, Measures};
use super::setting::{Look, SetLine, Setter, Span};
use super::sheet::{At, Card, Mark, Meaning, Outline, Role};
use super::{caution_part, step_part};
use crate::tell::recipe::{AreaLine, Recipe};
use crate::theme::Words;
use crate::trade::{Paper, Zone};

/// The size of the QR code, in points: 21 mm.
const CODE: f32 = 60.0;

/// The widest chip, in points.
const WIDEST_CHIP: f32 = 104.0;

/// Lays out a recipe on paper; `slug` decides how the chips are cut.
pub(super) fn compose(
    fonts: &Fonts,
    words: &Words,
    recipe: &Recipe<'_>,
    slug: &str,
    language: &str,
    paper: Paper,
) -> Card {
    let measures = Measures::of(paper);
    let mut composer = Composer {
        setter: Setter::new(fonts),
        words,
        measures,
        outline: Outline::default(),
        flow: Flow::new(measures.frame()),
        contents: Vec::new(),
    };
    composer.head(recipe);
    composer.areas(recipe, slug);
    caution_part::compose(&mut composer, recipe);
    step_part::compose(&mut composer, recipe);
    composer.needs(recipe);
    composer.margins(recipe);
    Card {
        size: measures.sheet,
        sheets: composer.flow.sheets,
        outline: composer.outline,
        title: recipe.title.to_owned(),
        author: recipe.author.to_owned(),
        language: language.to_owned(),
        contents: composer.contents,
    }
}

impl Composer<'_> {
    fn head(&mut self, recipe: &Recipe<'_>) {
        let title = self.outline.add(Role::Title(recipe.title.to_owned()), None);
        let width = self.width() - if recipe.address.is_some() { CODE + GAP } else { 0.0 };
        let look =
            Look { leading: self.measures.title * 1.1, ..Look::new(Voice::Heading, self.measures.title, ink::INK) };
        let mut left = self.paragraph(&[(recipe.title, look)], width, title);
        left.push(Strip::gap(3.0));
        if let Some(summary) = recipe.summary {
            let piece = self.outline.add(Role::Paragraph, None);
            left.extend(self.paragraph(&[(summary, Look::new(Voice::Text, 9.5, ink::SOFT))], width, piece));
        }
        left.push(Strip::gap(5.0));
        left.extend(self.glance(recipe, width));
        let tall: f32 = left.iter().map(|strip| strip.height).sum();
        set_keep(&mut left, false);
        let top = (self.width() - CODE, self.flow.y);
        let sheets = self.flow.sheets.len();
        self.flow.stack(left);
        let Some(address) = &recipe.address else { return };
        let alt = self.words.filled("card.code", &[("address", address)]);
        let piece = self.outline.add(Role::Figure(alt), None);
        let Some(mark) = chips::qr_code(address, CODE, piece) else { return };
        let at = (self.flow.frame.left + top.0, top.1 + 2.0);
        self.flow.sheets.first_mut().into_iter().for_each(|sheet| sheet.push(mark.clone().moved(at)));
        if tall < CODE + 4.0 && sheets == self.flow.sheets.len() {
            self.flow.y += CODE + 4.0 - tall;
        }
    }

    fn glance(&mut self, recipe: &Recipe<'_>, width: f32) -> Vec<Strip> {
        let label = Look::new(Voice::Label, 9.0, ink::SOFT);
        let figure = Look::new(Voice::Bold, 8.5, ink::INK);
        let mut spans: Vec<Span<'_>> = Vec::new();
        for (at, (name, value)) in recipe.glance.iter().enumerate() {
            spans.extend((at > 0).then_some(("  ·  ", label)));
            spans.extend([(name.as_str(), label), (" ", label), (value.as_str(), figure)]);
        }
        let piece = self.outline.add(Role::Paragraph, None);
        self.paragraph(&spans, width, piece)
    }

    /// Chips side by side, each with its name and with what lies uppermost in its zones.
    fn areas(&mut self, recipe: &Recipe<'_>, slug: &str) {
        if recipe.areas.is_empty() {
            return;
        }
        let list = self.outline.add(Role::List, None);
        let across = self.measures.areas;
        let width = column_width(self.width(), across, GAP);
        self.flow.stack(vec![Strip::gap(8.0)]);
        for row in recipe.areas.chunks(across) {
            let mut strip = Strip::default();
            for (column, area) in (0_u8..).zip(row) {
                let cell = self.area(area, slug, width, list);
                let at = (f32::from(column) * (width + GAP), 0.0);
                strip.height = strip.height.max(cell.height);
                strip.marks.extend(cell.marks.into_iter().map(|mark| mark.moved(at)));
            }
            strip.height += 6.0;
            self.flow.stack(vec![strip]);
        }
    }

    fn area(&mut self, area: &AreaLine, slug: &str, width: f32, list: usize) -> Strip {
        let entry = self.outline.add(Role::Entry, Some(list));
        let piece = self.outline.add(Role::Body, Some(entry));
        let name = format!("{slug}/{}", area.id);
        let wide = width.min(WIDEST_CHIP);
        let mut cell = Strip { marks: chips::three_tone(&name, &area.tones, wide, true), ..Strip::default() };
        cell.height = chips::height(wide) + 1.0;
        let bold = Look::new(Voice::Bold, 8.5, ink::INK);
        let soft = Look::new(Voice::Label, 8.5, ink::SOFT);
        let share = area.share.as_deref().unwrap_or_default();
        let title = self.setter.set(&[(&area.title, bold), (" ", soft), (share, soft)], width);
        put(&mut cell, title, 0.0, piece);
        for (zone, paint) in [Zone::Recesses, Zone::Faces, Zone::Edges].into_iter().zip(&area.paints) {
            let Some(paint) = paint else { continue };
            let key = chips::key(zone, 6.0).into_iter().map(|mark| mark.moved((0.5, cell.height + 1.8)));
            cell.marks.extend(key.collect::<Vec<_>>());
            let word = self.say(match zone {
                Zone::Recesses => "film.recesses",
                Zone::Faces => "film.faces",
                Zone::Edges => "film.edges",
            });
            let small = Look::new(Voice::Label, 8.0, ink::SOFT);
            let dark = Look { colour: ink::INK, ..small };
            let lines = self.setter.set(&[(&word, small), (" ", small), (paint, dark)], width - 10.0);
            put(&mut cell, lines, 10.0, piece);
        }
        cell
    }

    /// The shopping list in short: products to tick off, then tools.
    fn needs(&mut self, recipe: &Recipe<'_>) {
        if recipe.products.is_empty() && recipe.tools.is_empty() {
            return;
        }
        let title = format!("{}, {}", self.say("shopping.title"), recipe.models);
        let (part, heading) = self.heading(&title, None);
        let columns = self.measures.columns;
        let width = column_width(self.width(), columns, GAP) - 11.0;
        let list = self.outline.add(Role::List, Some(part));
        let bold = Look { leading: 9.6, ..Look::new(Voice::Bold, 7.8, ink::INK) };
        let soft = Look { leading: bold.leading, ..Look::new(Voice::Label, 8.0, ink::SOFT) };
        let mut lines = Vec::new();
        for (name, maker) in &recipe.products {
            let entry = self.outline.add(Role::Entry, Some(list));
            let piece = self.outline.add(Role::Body, Some(entry));
            let set = self.setter.set(&[(name, bold), (" ", soft), (maker, soft)], width);
            lines.extend(ticked(strips(set, 11.0, piece)));
        }
        let piece = self.outline.add(Role::Paragraph, Some(part));
        let text = Look { leading: bold.leading, ..Look::new(Voice::Label, 8.5, ink::INK) };
        let on_desk = self.say("step.tools");
        let joined = recipe.tools.join(" · ");
        let full = self.width();
        let tools = if joined.is_empty() {
            Vec::new()
        } else {
            self.paragraph(&[(&on_desk, bold), (": ", bold), (&joined, text)], full, piece)
        };
        self.flow.stack(heading);
        self.flow.columns(lines, columns, GAP, 0.0, None);
        self.flow.stack(vec![Strip::gap(3.0)]);
        self.flow.stack(tools);
    }

    /// The heads and feet, once the number of sheets is known.
    fn margins(&mut self, recipe: &Recipe<'_>) {
        let count = self.flow.sheets.len();
        let frame = self.flow.frame;
        let look = Look::new(Voice::Label, 8.0, ink::SOFT);
        let foot = format!("{} · {}", recipe.guide, recipe.author);
        let foot = match &recipe.address {
            Some(address) => format!("{foot} · {address}"),
            None => foot,
        };
        for at in 0..count {
            let number = format!("{} / {count}", at + 1);
            let mut marks = Vec::new();
            let low = frame.bottom + 4.0;
            let (left, right) = ((frame.left, low), (frame.left + frame.width, low));
            marks.push(Mark::line(left, right, ink::HAIR, 0.5));
            marks.extend(self.one_line(&[(&foot, look)], frame.width - 40.0, (frame.left, low + 2.5)));
            let numbered = self.setter.set_aligned(&[(&number, look)], frame.width, Alignment::Right);
            marks.extend(margin(numbered, (frame.left, low + 2.5)));
            if at > 0 {
                let bold = Look::new(Voice::Bold, 8.5, ink::INK);
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

fn ticked(mut strips: Vec<Strip>) -> Vec<Strip> {
    if let Some(first) = strips.first_mut() {
        first.marks.insert(0, chips::tick_box(6.5).moved((0.5, 1.6)));
    }
    strips
}
