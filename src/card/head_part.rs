//! The head of a card: title, figures, photo, code, and the areas with the paints that each gets.

use super::chips;
use super::composer::{Composer, put};
use super::flow::{Strip, column_width, set_keep};
use super::fonts::Voice;
use super::ink;
use super::measures::{GAP, TEXT, TITLE};
use super::setting::Span;
use super::sheet::Role;
use crate::tell::recipe::{AreaLine, Recipe};
use crate::trade::Zone;

/// The size of the QR code, in points: 21 mm.
const CODE: f32 = 60.0;

/// The widest chip, in points.
const WIDEST_CHIP: f32 = 84.0;
/// The same where there is little room.
const SMALL_CHIP: f32 = 32.0;

/// Sets the head of a recipe.
pub(super) fn compose(composer: &mut Composer<'_>, recipe: &Recipe<'_>, slug: &str) {
    head(composer, recipe);
    areas(composer, recipe, slug);
}

fn head(composer: &mut Composer<'_>, recipe: &Recipe<'_>) {
    let title = composer.outline.add(Role::Title(recipe.title.to_owned()), None);
    let width = composer.width() - if recipe.address.is_some() { CODE + GAP } else { 0.0 };
    let look = composer.measures.look(Voice::Heading, TITLE, ink::INK);
    let mut left = composer.paragraph(&[(recipe.title, look)], width, title);
    left.push(Strip::gap(2.0));
    if let Some(summary) = recipe.summary {
        let piece = composer.outline.add(Role::Paragraph, None);
        let look = composer.measures.look(composer.measures.long(), TEXT, ink::SOFT);
        left.extend(composer.paragraph(&[(summary, look)], width, piece));
    }
    left.push(Strip::gap(3.0));
    left.extend(glance(composer, recipe, width));
    let tall: f32 = left.iter().map(|strip| strip.height).sum();
    set_keep(&mut left, false);
    let top = composer.flow.y;
    let sheets = composer.flow.sheets.len();
    composer.flow.stack(left);
    let Some(address) = &recipe.address else { return };
    let alt = composer.words.filled("card.code", &[("address", address)]);
    let piece = composer.outline.add(Role::Figure(alt), None);
    let Some(mark) = chips::qr_code(address, CODE, piece) else { return };
    let at = (composer.flow.frame.left + composer.width() - CODE, top + 2.0);
    composer.flow.sheets.first_mut().into_iter().for_each(|sheet| sheet.push(mark.clone().moved(at)));
    if tall < CODE + 4.0 && sheets == composer.flow.sheets.len() {
        composer.flow.y += CODE + 4.0 - tall;
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
    composer.flow.stack(vec![Strip::gap(6.0)]);
    for row in recipe.areas.chunks(across) {
        let mut strip = Strip::default();
        for (column, line) in (0_u8..).zip(row) {
            let cell = area(composer, line, slug, width, list);
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

fn area(composer: &mut Composer<'_>, area: &AreaLine, slug: &str, width: f32, list: usize) -> Strip {
    let entry = composer.outline.add(Role::Entry, Some(list));
    let piece = composer.outline.add(Role::Body, Some(entry));
    let name = format!("{slug}/{}", area.id);
    let bold = composer.measures.look(Voice::Bold, TEXT, ink::INK);
    let soft = composer.measures.look(Voice::Label, TEXT, ink::SOFT);
    let dark = composer.measures.look(Voice::Label, TEXT, ink::INK);
    // In little room the chip stands beside the name.
    let close = composer.measures.is_close();
    let wide = width.min(composer.measures.scale * if close { SMALL_CHIP } else { WIDEST_CHIP });
    let mut cell = Strip { marks: chips::three_tone(&name, &area.tones, wide, true), ..Strip::default() };
    cell.height = if close { 0.0 } else { chips::height(wide) + 1.0 };
    let beside = if close { wide + 4.0 } else { 0.0 };
    let share = area.share.as_deref().unwrap_or_default();
    let title = composer.setter.set(&[(&area.title, bold), (" ", soft), (share, soft)], width - beside);
    put(&mut cell, title, beside, piece);
    let least = if close { chips::height(wide) + 1.0 } else { 0.0 };
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
        let key = chips::key(zone, side).into_iter().map(|mark| mark.moved((left, (look.leading - side) / 2.0)));
        strip.marks.extend(key.collect::<Vec<_>>());
        let piece = composer.outline.add(Role::Paragraph, None);
        let said = composer.say(word);
        let lines = composer.setter.set(&[(&said, look)], 90.0);
        left += side + 3.0;
        strip.height = look.leading;
        for line in lines.into_iter().take(1) {
            let wide = line.width();
            strip.marks.extend(line.marks((left, 0.0), super::sheet::Meaning::Piece(piece)));
            left += wide + 12.0;
        }
    }
    strip
}
