//! The chain of paints that an area gets, from the ground up: `3 × Pale Gold, 5 × Clear Amber, Glass Gloss`.

use crate::guide::{MixPart, Step};
use crate::tell::facts;
use crate::theme::Words;
use crate::trade::{Kind, Stage};
use crate::work::WorkedScheme;

/// What is laid on an area of a scheme, one name a step, in the order of work: what reached it in the film, so no paint
/// that a mask kept off. The undercoat of the whole model is left out where something lies on it.
pub(super) fn of_area(worked: &WorkedScheme, area: usize, words: &Words) -> String {
    let reached = worked.reached.get(area).map(Vec::as_slice).unwrap_or_default();
    let laid = reached.iter().filter_map(|at| worked.scheme.steps.get(*at));
    let (ground, upper): (Vec<&Step>, Vec<&Step>) = laid
        .filter(|step| leading(&step.mix.parts).is_some())
        .partition(|step| step.all_over && step.stage == Stage::Undercoat);
    let shown = if upper.is_empty() { ground } else { upper };
    let links: Vec<String> = shown.into_iter().filter_map(|step| link(step, words)).collect();
    links.join(", ")
}

fn link(step: &Step, words: &Words) -> Option<String> {
    let name = named(step)?;
    let counted = if step.coats > 1 { format!("{} × {name}", step.coats) } else { name };
    Some(std::iter::once(counted).chain(facts::aimed(step, words)).collect::<Vec<_>>().join(" "))
}

/// What a step's paint is called in short; of two that are blended wet in wet the first and the second.
fn named(step: &Step) -> Option<String> {
    let parts = step.mix.parts.as_slice();
    match step.mix.blend.and_then(|split| parts.split_at_checked(split)) {
        Some((first, second)) => Some(format!("{} – {}", leading(first)?, leading(second)?)),
        None => leading(parts),
    }
}

/// Of the largest part of a mix, less than this share of it is what tints it and not what it is called after.
const TINTS: f64 = 0.25;

/// The products that a mix is named after, in the author's order: of those that stay on the model, the largest part and
/// what comes near it.
fn leading(parts: &[MixPart]) -> Option<String> {
    let stays = |kind: Kind| {
        !matches!(kind, Kind::Thinner | Kind::Cleaner | Kind::Medium | Kind::DecalSoftener | Kind::Resist | Kind::Glue)
    };
    let parts: Vec<&MixPart> = parts.iter().filter(|part| stays(part.paint.kind)).collect();
    let most = parts.iter().map(|part| part.amount.as_f64()).fold(0.0, f64::max);
    let names = parts.iter().filter(|part| part.amount.as_f64() >= TINTS * most).map(|part| part.paint.name.as_str());
    let names: Vec<&str> = names.collect();
    (!names.is_empty()).then(|| names.join(" + "))
}
