//! An area that gets an undercoat or a varnish, and no colour between them.

use std::collections::BTreeMap;

use super::area_unused::{is_reached, whole_schemes};
use crate::guide::{Guide, Scheme, Step};
use crate::report::{Check, Finding, Group, Level, Place, wording};
use crate::trade::{Stage, names_clear_part};

/// Areas get colour.
pub(in crate::rules) static AREA_UNPAINTED: Check = Check {
    id: "area-unpainted",
    level: Level::Warning,
    about: "every area of a scheme gets a colour, from a step of its own or from one that goes all over",
    why: "a step was forgotten, and whoever paints from the page has bare undercoat there",
    group: Group::Bookkeeping,
    safety: false,
};

/// What is wrong with the areas of all schemes; an area once, whatever number of versions leaves it bare.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    let mut found: BTreeMap<Place, (Finding, bool)> = BTreeMap::new();
    // A scheme stands before its versions: what it leaves bare itself needs no list of them.
    for scheme in whole_schemes(guide) {
        for finding in (0..scheme.areas.len()).filter_map(|area| unpainted(scheme, area)) {
            let known = found.remove(&finding.place);
            let place = finding.place;
            let told = match (known, &scheme.version) {
                (None, version) => (finding, version.is_some()),
                (Some((first, true)), Some(version)) => (first.see_version(version.place, version.as_told()), true),
                (Some(first), _) => first,
            };
            found.insert(place, told);
        }
    }
    found.into_values().map(|(finding, _)| finding).collect()
}

fn unpainted(scheme: &Scheme, area: usize) -> Option<Finding> {
    let on_it = || scheme.steps.iter().filter(|step| step.areas.contains(&area));
    let here = scheme.areas.get(area).filter(|_| is_reached(scheme, area) && !on_it().any(colours))?;
    if is_kept_clear(scheme, area) || names_clear_part(&here.title) {
        return None;
    }
    let title = wording::quoted(&here.title);
    let message = format!("the area {title} of {} never gets a colour", wording::quoted(&scheme.title));
    let mend = format!(
        "add a step that paints it, such as 'stage: basecoat' with 'areas: [{}]', or give its share to another area",
        here.id
    );
    let finding = Finding::new(&AREA_UNPAINTED, here.place, message, mend);
    Some(match on_it().rfind(|step| step.stage.needs_areas()) {
        Some(last) => finding.see(last.places.title, "the last step on it"),
        None => finding,
    })
}

/// Whether an area is masked before anything is laid on it: glass that stays glass.
fn is_kept_clear(scheme: &Scheme, area: usize) -> bool {
    let mut on_it = scheme.steps.iter().filter(|step| step.areas.contains(&area));
    on_it
        .find(|step| !matches!(step.stage, Stage::Prepare | Stage::Assemble))
        .is_some_and(|first| first.stage == Stage::Mask)
}

/// Whether a step may leave colour on its areas; where it names no paint, it gets the benefit of the doubt.
fn colours(step: &Step) -> bool {
    let by_stage = !matches!(
        step.stage,
        Stage::Prepare
            | Stage::Assemble
            | Stage::Mask
            | Stage::Unmask
            | Stage::Undercoat
            | Stage::Preshade
            | Stage::Varnish
            | Stage::Decal
    );
    let parts = &step.mix.parts;
    let tinted = step.stage == Stage::Varnish && parts.iter().any(|part| part.paint.kind.has_colour());
    let beside_the_model = step.stage == Stage::Basing && step.all_over;
    // Clear resin or gel that is poured shows the ground under it as water: that is its colour.
    let poured = step.deep.is_some();
    let by_paint = poured || parts.is_empty() || parts.iter().any(|part| part.paint.kind.has_colour());
    tinted || (by_stage && !beside_the_model && by_paint)
}
