//! The chain of paints that an area gets, from the ground up: `3 × Pale Gold, 5 × Clear Amber, Glass Gloss`.

use crate::guide::Step;
use crate::tell::{called, facts};
use crate::theme::Words;
use crate::trade::Stage;
use crate::work::WorkedScheme;

/// A step with what its paints are called.
type Named<'a> = (&'a Step, String);

/// What is laid on an area of a scheme, one name a step, in the order of work: what reached it in the film, so no paint
/// that a mask kept off. The undercoat of the whole model is left out where something lies on it.
pub(super) fn of_area(worked: &WorkedScheme, area: usize, words: &Words) -> String {
    let reached = worked.reached.get(area).map(Vec::as_slice).unwrap_or_default();
    let laid = reached.iter().filter_map(|at| worked.scheme.steps.get(*at));
    let named = laid.filter_map(|step| Some((step, name(step, words)?)));
    let (ground, upper): (Vec<Named<'_>>, Vec<Named<'_>>) =
        named.partition(|(step, _)| step.all_over && step.stage == Stage::Undercoat);
    let shown = if upper.is_empty() { ground } else { upper };
    let links: Vec<String> = shown.into_iter().map(|(step, name)| link(step, name, words)).collect();
    links.join(", ")
}

fn link(step: &Step, name: String, words: &Words) -> String {
    let counted = if step.coats > 1 { format!("{}\u{a0}×\u{a0}{name}", step.coats) } else { name };
    std::iter::once(counted).chain(facts::aimed(step, words)).collect::<Vec<_>>().join(" ")
}

/// What the paints of a step are called. Several that are not mixed are joined by no plus, and bracketed, for a list of steps
/// goes on after them.
fn name(step: &Step, words: &Words) -> Option<String> {
    if !step.mix.is_beside() || step.mix.parts.len() < 2 {
        return called::in_line(&step.mix, words);
    }
    called::of_layer(&step.mix, words).map(|names| format!("({names})"))
}
