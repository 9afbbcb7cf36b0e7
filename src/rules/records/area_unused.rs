//! An area that no step reaches: it takes its share of the surface from the others.

use crate::guide::{Guide, Scheme};
use crate::report::{Check, Finding, Group, Level, wording};

/// Areas are used.
pub(in crate::rules) static AREA_UNUSED: Check = Check {
    id: "area-unused",
    level: Level::Warning,
    about: "every area of a scheme is named by a step, or reached by one that goes all over",
    why: "the amounts of all paints are calculated from the areas' shares, and this share is painted with nothing",
    group: Group::Bookkeeping,
    safety: false,
};

/// What is wrong with the areas of all schemes.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    // A step of a variant may be the one that reaches an area.
    let bases = whole_schemes(guide).filter(|scheme| scheme.left_out.is_empty() && scheme.version.is_none());
    bases.flat_map(|scheme| (0..scheme.areas.len()).filter_map(|area| unused(scheme, area))).collect()
}

/// The schemes that could be read whole, and that have steps.
pub(in crate::rules) fn whole_schemes(guide: &Guide) -> impl Iterator<Item = &Scheme> {
    guide.schemes.iter().map(|scheme| &**scheme).filter(|scheme| scheme.whole && !scheme.steps.is_empty())
}

/// Whether a step reaches an area; getting the model ready reaches all of it and paints nothing.
pub(in crate::rules) fn is_reached(scheme: &Scheme, area: usize) -> bool {
    scheme.steps.iter().any(|step| step.stage.needs_areas() && step.areas.contains(&area))
        || scheme.steps.iter().any(|step| !step.stage.needs_areas() && !step.all_over && step.areas.contains(&area))
}

fn unused(scheme: &Scheme, area: usize) -> Option<Finding> {
    let here = scheme.areas.get(area).filter(|_| !is_reached(scheme, area))?;
    let title = wording::quoted(&here.title);
    let message = format!("no step of {} reaches the area {title}", wording::quoted(&scheme.title));
    let mend =
        format!("name '{}' under 'areas' of the steps that paint it, or give its share to another area", here.id);
    let finding = Finding::new(&AREA_UNUSED, here.place, message, mend);
    Some(match scheme.steps.first() {
        Some(first) => finding.see(first.places.areas, "the first of the steps, none of which names it"),
        None => finding,
    })
}
