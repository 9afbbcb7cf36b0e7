//! What to do first: one line of drawn outlines, each with its words. It stands before the steps, and before each.

use super::composer::Composer;
use super::flow::Strip;
use super::fonts::Voice;
use super::ink;
use super::measures::CAUTION;
use super::running::Running;
use super::sheet::Role;
use crate::caution::Action;
use crate::tell::recipe::Recipe;

/// What to do, each with its words.
pub(super) type Actions = [(Action, &'static str)];

/// A piece of the text for each thing to do, as a list; none where nothing is to be done.
pub(super) fn pieces(composer: &mut Composer<'_>, actions: &Actions, inside: Option<usize>) -> Vec<usize> {
    if actions.is_empty() {
        return Vec::new();
    }
    let list = composer.outline.add(Role::List, inside);
    let entries = actions.iter().map(|_| {
        let entry = composer.outline.add(Role::Entry, Some(list));
        composer.outline.add(Role::Body, Some(entry))
    });
    entries.collect()
}

/// Puts what to do into rows, behind the triangle.
pub(super) fn put(composer: &mut Composer<'_>, rows: &mut Running, actions: &Actions, pieces: &[usize]) {
    let look = composer.measures.look(Voice::Label, CAUTION + 0.5, ink::INK);
    for (at, (action, piece)) in actions.iter().zip(pieces).enumerate() {
        rows.action(&mut composer.setter, *action, at == 0, look, *piece);
    }
}

/// The line before all steps.
pub(super) fn compose(composer: &mut Composer<'_>, recipe: &Recipe<'_>) {
    if recipe.actions.is_empty() {
        return;
    }
    let label = composer.outline.add_in(Role::Paragraph, None, recipe.cautions.language);
    let pieces = pieces(composer, &recipe.actions, None);
    let mut rows = Running::new(composer.width());
    let bold = composer.measures.look(Voice::Bold, CAUTION + 0.5, ink::INK);
    rows.words(&mut composer.setter, recipe.first, bold, label);
    put(composer, &mut rows, &recipe.actions, &pieces);
    composer.flow.stack(vec![Strip::gap(3.0), rows.strip()]);
}
