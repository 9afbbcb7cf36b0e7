//! The head of a card: title, figures, photo, code, and the areas with the paints that each gets.

use super::chips;
use super::composer::{Composer, put};
use super::flow::{Strip, column_width, set_keep};
use super::fonts::Voice;
use super::ink;
use super::measures::{GAP, TEXT, TITLE};
use super::setting::Span;
use super::sheet::{At, Mark, Role};
use crate::tell::recipe::{AreaLine, Recipe};
use crate::trade::Zone;

/// The size of the QR code, in points: 21 mm.
const CODE: f32 = 60.0;

/// The longest side of the photo, as a part of the sheet's width.
const PHOTO: f32 = 0.175;
/// The same where there is little room.
const CLOSE_PHOTO: f32 = 0.12;

/// The widest chip, in points.
const WIDEST_CHIP: f32 = 84.0;
/// The same where there is little room, or where there are more areas than this: theirs would fill the first sheet.
const SMALL_CHIP: f32 = 32.0;
const MANY_AREAS: usize = 12;

/// Sets the head of a recipe.
pub(super) fn compose(composer: &mut Composer<'_>, recipe: &Recipe<'_>, slug: &str) {
    head(composer, recipe);
    areas(composer, recipe, slug);
}

fn head(composer: &mut Composer<'_>, recipe: &Recipe<'_>) {
    let title = composer.outline.add(Role::Title(recipe.title.to_owned()), None);
    let code = if recipe.address.is_some() { CODE + GAP } else { 0.0 };
    let size = composer.photo.map(|photo| photo.size(longest_side(composer)));
    let inset = size.map_or(0.0, |(wide, _)| wide + GAP);
    let width = composer.width() - code - inset;
    let look = composer.measures.look(Voice::Heading, TITLE, ink::INK);
    let mut beside = composer.paragraph(&[(recipe.title, look)], width, title);
    beside.push(Strip::gap(2.0));
    if let Some(summary) = recipe.summary {
        let piece = composer.outline.add(Role::Paragraph, None);
        let look = composer.measures.look(composer.measures.long(), TEXT, ink::SOFT);
        beside.extend(composer.paragraph(&[(summary, look)], width, piece));
    }
    beside.push(Strip::gap(3.0));
    beside.extend(glance(composer, recipe, width));
    let tall: f32 = beside.iter().map(|strip| strip.height).sum();
    set_keep(&mut beside, false);
    shift(&mut beside, inset);
    let (top, sheets) = (composer.flow.y, composer.flow.sheets.len());
    composer.flow.stack(beside);
    let left = composer.flow.frame.left;
    let photo = photo_mark(composer, (left, top + 2.0));
    let code = code_mark(composer, recipe, (left + composer.width() - CODE, top + 2.0));
    // The code has its room whether it is drawn or the card is only measured.
    let coded = recipe.address.is_some() && composer.code.is_some();
    let lowest = [coded.then_some(CODE), size.map(|(_, tall)| tall)].into_iter().flatten().fold(0.0, f32::max);
    if let Some(sheet) = composer.flow.sheets.first_mut() {
        sheet.extend(photo.into_iter().chain(code));
    }
    if tall < lowest + 4.0 && sheets == composer.flow.sheets.len() {
        composer.flow.y += lowest + 4.0 - tall;
    }
}

/// How long a side of the photo may be: no text becomes narrow for it.
fn longest_side(composer: &Composer<'_>) -> f32 {
    composer.width() * if composer.measures.is_close() { CLOSE_PHOTO } else { PHOTO }
}

fn photo_mark(composer: &mut Composer<'_>, at: At) -> Option<Mark> {
    let photo = composer.photo?;
    let size = photo.size(longest_side(composer));
    let piece = composer.outline.add(Role::Figure(photo.alt.clone()), None);
    Some(photo.mark(at, size, piece))
}

fn code_mark(composer: &mut Composer<'_>, recipe: &Recipe<'_>, at: At) -> Option<Mark> {
    let address = recipe.address.as_ref()?;
    let alt = composer.words.filled("card.code", &[("address", address)]);
    let piece = composer.outline.add(Role::Figure(alt), None);
    let code = composer.code?;
    composer.drawn(|| [chips::code_mark(code, CODE, piece).moved(at)]).pop()
}

fn shift(strips: &mut [Strip], right: f32) {
    for strip in strips {
        let marks = std::mem::take(&mut strip.marks);
        strip.marks = marks.into_iter().map(|mark| mark.moved((right, 0.0))).collect();
    }
}

fn glance(composer: &mut Composer<'_>, recipe: &Recipe<'_>, width: f32) -> Vec<Strip> {
    let label = composer.measures.look(Voice::Label, TEXT, ink::SOFT);
    let figure = composer.measures.look(Voice::Bold, TEXT, ink::INK);
    let mut spans: Vec<Span<'_>> = Vec::new();
    for (at, (name, value)) in recipe.glance.iter().enumerate() {
        spans.extend((at > 0).then_some(("  ·  ", label)));
        spans.extend([(name.as_str(), label), (" ", label), (value.as_str(), figure)]);
    }
    let piece = composer.outline.add(Role::Paragraph, None);
    composer.paragraph(&spans, width, piece)
}

/// Chips side by side, each with its name and the chain of paints that it gets.
fn areas(composer: &mut Composer<'_>, recipe: &Recipe<'_>, slug: &str) {
    if recipe.areas.is_empty() {
        return;
    }
    let list = composer.outline.add(Role::List, None);
    let across = composer.measures.areas.min(recipe.areas.len());
    let width = column_width(composer.width(), across, GAP);
    let small = composer.measures.is_close() || recipe.areas.len() > MANY_AREAS;
    composer.flow.stack(vec![Strip::gap(6.0)]);
    for row in recipe.areas.chunks(across) {
        let mut strip = Strip::default();
        for (column, line) in (0_u8..).zip(row) {
            let cell = area(composer, line, slug, (width, small), list);
            let at = (f32::from(column) * (width + GAP), 0.0);
            strip.height = strip.height.max(cell.height);
            strip.marks.extend(cell.marks.into_iter().map(|mark| mark.moved(at)));
        }
        strip.height += 4.0;
        composer.flow.stack(vec![strip]);
    }
    let key = key(composer, recipe);
    composer.flow.stack(vec![key]);
}

/// One area in a width; a small chip stands beside the name.
fn area(composer: &mut Composer<'_>, area: &AreaLine, slug: &str, (width, small): (f32, bool), list: usize) -> Strip {
    let entry = composer.outline.add(Role::Entry, Some(list));
    let piece = composer.outline.add(Role::Body, Some(entry));
    let name = format!("{slug}/{}", area.id);
    let bold = composer.measures.look(Voice::Bold, TEXT, ink::INK);
    let soft = composer.measures.look(Voice::Label, TEXT, ink::SOFT);
    let dark = composer.measures.look(Voice::Label, TEXT, ink::INK);
    let wide = width.min(composer.measures.scale * if small { SMALL_CHIP } else { WIDEST_CHIP });
    let marks = composer.drawn(|| chips::three_tone(&name, &area.tones, wide, true));
    let mut cell = Strip { marks, ..Strip::default() };
    cell.height = if small { 0.0 } else { chips::height(wide) + 1.0 };
    let beside = if small { wide + 4.0 } else { 0.0 };
    let share = area.share.as_deref().unwrap_or_default();
    let title = composer.setter.set(&[(&area.title, bold), (" ", soft), (share, soft)], width - beside);
    put(&mut cell, title, beside, piece);
    let least = if small { chips::height(wide) + 1.0 } else { 0.0 };
    cell.height = cell.height.max(least);
    let chain = composer.setter.set(&[(&area.chain, dark)], width);
    put(&mut cell, chain, 0.0, piece);
    cell
}

/// Which pattern stands for which zone, where a chip has one.
fn key(composer: &mut Composer<'_>, recipe: &Recipe<'_>) -> Strip {
    let mut strip = Strip::default();
    let zones = [(Zone::Recesses, "film.recesses"), (Zone::Edges, "film.edges")];
    let marked = |zone: Zone| recipe.areas.iter().any(|area| chips::is_marked(zone, &area.tones));
    let look = composer.measures.look(Voice::Label, TEXT, ink::SOFT);
    let mut left = 0.0;
    for (zone, word) in zones.into_iter().filter(|(zone, _)| marked(*zone)) {
        let side = look.size * 0.75;
        let at = (left, (look.leading - side) / 2.0);
        strip.marks.extend(composer.drawn(|| chips::key(zone, side).into_iter().map(|mark| mark.moved(at))));
        let piece = composer.outline.add(Role::Paragraph, None);
        let said = composer.say(word);
        let lines = composer.setter.set_left(&[(&said, look)], 90.0);
        left += side + 3.0;
        strip.height = look.leading;
        for line in lines.into_iter().take(1) {
            let wide = line.width;
            strip.marks.extend(line.marks((left, 0.0), super::sheet::Meaning::Piece(piece)));
            left += wide + 12.0;
        }
    }
    strip
}
