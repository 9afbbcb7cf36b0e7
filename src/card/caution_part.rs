//! The cautions of a card: each in full, with the steps that it holds for. What to do about them stands before the steps.

use super::chips;
use super::composer::Composer;
use super::flow::{Strip, column_width, set_keep};
use super::fonts::Voice;
use super::ink;
use super::measures::{CAUTION, GAP};
use super::setting::Span;
use super::sheet::{At, Mark, Paint, Role, rectangle};
use crate::tell::cautions::CautionLine;
use crate::tell::recipe::Recipe;

/// The thick edge on the left.
const EDGE: f32 = 4.0;
/// The room between the edge of the box and the text.
const INSET: f32 = 7.0;
/// Sets the cautions of a recipe, if it has any.
pub(super) fn compose(composer: &mut Composer<'_>, recipe: &Recipe<'_>) {
    let cautions = &recipe.cautions;
    if [&cautions.entries, &cautions.notes, &cautions.statements].iter().all(|group| group.is_empty()) {
        return;
    }
    let (part, heading) = composer.heading(&cautions.heading, Some(chips::triangle(13.0)));
    let width = column_width(composer.width() - 2.0 * INSET, composer.measures.columns, GAP);
    let mut strips = Vec::new();
    strips.extend(group(composer, part, "", &cautions.entries.iter().collect::<Vec<_>>(), cautions.language, width));
    let notes: Vec<&CautionLine> = cautions.notes.iter().filter(|note| !at_its_step(recipe, note)).collect();
    strips.extend(group(composer, part, &cautions.by_author, &notes, cautions.language, width));
    strips.extend(group(
        composer,
        part,
        &cautions.on_products,
        &cautions.statements.iter().collect::<Vec<_>>(),
        cautions.language,
        width,
    ));
    let bold = composer.measures.look(Voice::Bold, CAUTION, ink::INK);
    let piece = composer.outline.add_in(Role::Paragraph, Some(part), cautions.language);
    strips.extend(composer.paragraph(&[(&cautions.closing, bold)], width, piece));
    let least = composer.flow.first(&strips, INSET);
    composer.begin(&cautions.heading, heading, least);
    let columns = composer.measures.columns;
    composer.flow.columns(strips, columns, GAP, INSET, Some(ground));
}

/// Whether one of the author's own stands at the one step that it is for.
fn at_its_step(recipe: &Recipe<'_>, note: &CautionLine) -> bool {
    recipe.steps.iter().any(|step| step.notes.contains(&note.text))
}

/// Cautions under one heading.
fn group(
    composer: &mut Composer<'_>,
    part: usize,
    heading: &str,
    cautions: &[&CautionLine],
    language: Option<&'static str>,
    width: f32,
) -> Vec<Strip> {
    if cautions.is_empty() {
        return Vec::new();
    }
    let mut strips = Vec::new();
    if !heading.is_empty() {
        let piece = composer.outline.add_in(Role::Paragraph, Some(part), language);
        strips = composer.paragraph(&[(heading, composer.measures.look(Voice::Bold, CAUTION, ink::INK))], width, piece);
        set_keep(&mut strips, true);
    }
    let list = composer.outline.add_in(Role::List, Some(part), language);
    for caution in cautions {
        strips.extend(line(composer, caution, width, list));
    }
    if let Some(last) = strips.last_mut() {
        last.height += 2.0;
    }
    strips
}

/// One caution as a paragraph, with the steps or the products that it holds for.
fn line(composer: &mut Composer<'_>, caution: &CautionLine, width: f32, list: usize) -> Vec<Strip> {
    let (bold, text, soft) = (
        composer.measures.look(Voice::Bold, CAUTION, ink::INK),
        composer.measures.look(composer.measures.long(), CAUTION, ink::INK),
        composer.measures.look(Voice::Label, CAUTION, ink::SOFT),
    );
    let about = format!("({})", caution.steps);
    let space: Span<'_> = (" ", text);
    let spans: [Span<'_>; 5] = [(&caution.title, bold), space, (&about, soft), space, (&caution.text, text)];
    let spans = if caution.title.is_empty() { spans.get(2..).unwrap_or_default() } else { &spans };
    let entry = composer.outline.add(Role::Entry, Some(list));
    let piece = composer.outline.add_in(Role::Body, Some(entry), caution.language);
    let mut strips = composer.paragraph(spans, width, piece);
    if let Some(last) = strips.last_mut() {
        last.height += 2.0;
    }
    strips
}

/// The ground of the box with its ochre edge and a fine line all around.
fn ground(at: At, width: f32, height: f32) -> Vec<Mark> {
    let frame = rectangle(at, width, height);
    vec![
        Mark::decoration(vec![frame.clone()], Paint::Fill(ink::CAUTION)),
        Mark::decoration(vec![frame], Paint::Outline(ink::OCHRE, 0.5)),
        Mark::decoration(vec![rectangle(at, EDGE, height)], Paint::Fill(ink::OCHRE)),
    ]
}
