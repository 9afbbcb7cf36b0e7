//! The chain of paints that an area gets, from the ground up: `3 × Pale Gold, 5 × Clear Amber, Glass Gloss`.

use crate::guide::{Scheme, Step};
use crate::tell::facts;
use crate::theme::Words;
use crate::trade::{Kind, Stage};

/// What is laid on an area of a scheme, one name a step, in the order of work. The undercoat of the whole model is left
/// out where something lies on it.
pub(super) fn of_area(scheme: &Scheme, area: usize, words: &Words) -> String {
    let laid = scheme.steps.iter().filter(|step| step.areas.contains(&area) && !step.is_about_base());
    let (ground, upper): (Vec<&Step>, Vec<&Step>) =
        laid.filter(|step| leading(step).is_some()).partition(|step| step.all_over && step.stage == Stage::Undercoat);
    let shown = if upper.is_empty() { ground } else { upper };
    let links: Vec<String> = shown.into_iter().filter_map(|step| link(step, words)).collect();
    links.join(", ")
}

fn link(step: &Step, words: &Words) -> Option<String> {
    let name = leading(step)?;
    let counted = if step.coats > 1 { format!("{} × {name}", step.coats) } else { name.to_owned() };
    Some(std::iter::once(counted).chain(facts::aimed(step, words)).collect::<Vec<_>>().join(" "))
}

/// The product that a mix is named after: of those that stay on the model, the one with the largest share.
fn leading(step: &Step) -> Option<&str> {
    let stays = |kind: Kind| {
        !matches!(kind, Kind::Thinner | Kind::Cleaner | Kind::Medium | Kind::DecalSoftener | Kind::Resist | Kind::Glue)
    };
    let parts = step.mix.parts.iter().filter(|part| stays(part.paint.kind));
    // The first of equals: what an author names first is what the mix is about.
    let most = parts.reduce(|most, part| if part.amount > most.amount { part } else { most });
    most.map(|part| part.paint.name.as_str())
}
