//! The cautions of a card: each in full, with the steps that it holds for. They stand before the steps.

use super::chips;
use super::compose::Composer;
use super::flow::{Strip, column_width};
use super::fonts::Voice;
use super::ink;
use super::measures::GAP;
use super::recipe::{CautionLine, Recipe};
use super::setting::{Look, Span};
use super::sheet::{At, Mark, Paint, Role, rectangle};

/// The smallest text on a card.
const SIZE: f32 = 7.5;
/// The thick edge on the left.
const EDGE: f32 = 4.0;
/// The room between the edge of the box and the text.
const INSET: f32 = 9.0;

/// Sets the cautions of a recipe, if it has any.
pub(super) fn compose(composer: &mut Composer<'_>, recipe: &Recipe<'_>) {
    let cautions = &recipe.cautions;
    if cautions.entries.is_empty() && cautions.statements.is_empty() {
        return;
    }
    let (part, heading) = composer.heading(&cautions.heading, Some(chips::triangle(13.0)));
    let width = column_width(composer.width() - 2.0 * INSET, composer.measures.columns, GAP);
    let list = composer.outline.add_in(Role::List, Some(part), cautions.language);
    let mut strips = Vec::new();
    for entry in &cautions.entries {
        strips.extend(line(composer, entry, width, list, false));
    }
    let bold = Look { leading: SIZE * 1.24, ..Look::new(Voice::Bold, SIZE, ink::INK) };
    if !cautions.statements.is_empty() {
        let piece = composer.outline.add_in(Role::Paragraph, Some(part), cautions.language);
        let mut head = composer.paragraph(&[(&cautions.on_products, bold)], width, piece);
        head.iter_mut().for_each(|strip| strip.keep = true);
        strips.extend(head);
        let list = composer.outline.add_in(Role::List, Some(part), cautions.language);
        for entry in &cautions.statements {
            strips.extend(line(composer, entry, width, list, true));
        }
    }
    let piece = composer.outline.add_in(Role::Paragraph, Some(part), cautions.language);
    strips.extend(composer.paragraph(&[(&cautions.closing, bold)], width, piece));
    let columns = composer.measures.columns;
    composer.flow.stack(heading);
    composer.flow.columns(strips, columns, GAP, INSET, Some(ground));
}

/// One caution as a paragraph. A statement says behind its text which products carry it.
fn line(composer: &mut Composer<'_>, caution: &CautionLine, width: f32, list: usize, statement: bool) -> Vec<Strip> {
    let leading = SIZE * 1.24;
    let look = |voice, colour| Look { leading, ..Look::new(voice, SIZE, colour) };
    let (bold, text, soft) =
        (look(Voice::Bold, ink::INK), look(Voice::Text, ink::INK), look(Voice::Text, ink::SOFT));
    let about = format!("({})", caution.steps);
    let space: Span<'_> = (" ", text);
    let spans: [Span<'_>; 5] = if statement {
        [(&caution.title, bold), space, (&caution.text, text), space, (&about, soft)]
    } else {
        [(&caution.title, bold), space, (&about, soft), space, (&caution.text, text)]
    };
    let entry = composer.outline.add(Role::Entry, Some(list));
    let piece = composer.outline.add_in(Role::Body, Some(entry), caution.language);
    let mut strips = composer.paragraph(&spans, width, piece);
    if let Some(last) = strips.last_mut() {
        last.height += if statement { 1.0 } else { 3.0 };
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
