//! A range of which nothing is used. Single paints that stand unused are left alone: a shelf holds more than a recipe.

use std::collections::BTreeSet;

use crate::guide::{Guide, Paint, Prose, Suits, Target, Thing};
use crate::report::{Check, Finding, Group, Level, wording};

/// Ranges are used.
pub(in crate::rules) static PAINT_UNUSED: Check = Check {
    id: "paint-unused",
    level: Level::Note,
    about: "of every range of paints at least one is used: by a step, in a text, by an army or by another paint",
    why: "readers see paints that nothing in the guide needs, and may think that a recipe is missing",
    group: Group::Bookkeeping,
    safety: false,
};

/// How many of a range's paints are named.
const NAMED: usize = 6;

/// One note for each range of which nothing is used; none while a scheme or a step could not be read.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    if !guide.schemes.are_whole() {
        return Vec::new();
    }
    let used = used(guide);
    let of_range = |one: &Paint, other: &Paint| one.maker == other.maker && one.range == other.range;
    let firsts = guide
        .paints
        .iter()
        .enumerate()
        .filter(|(at, paint)| !guide.paints.iter().take(*at).any(|earlier| of_range(earlier, paint)));
    let ranges =
        firsts.map(|(_, first)| guide.paints.iter().filter(|paint| of_range(first, paint)).collect::<Vec<_>>());
    ranges
        .filter(|range| range.iter().all(|paint| !used.contains(paint.id.as_str())))
        .filter_map(|range| {
            unused(&range.into_iter().map(|paint| &**paint).filter(|paint| !paint.discontinued).collect::<Vec<_>>())
        })
        .collect()
}

fn unused(range: &[&Paint]) -> Option<Finding> {
    let first = range.first()?;
    let count = wording::counted(range.len(), "paint", "paints");
    let shown = wording::listed(range.iter().take(NAMED).map(|paint| &paint.name));
    let more = range.len().saturating_sub(NAMED);
    let rest = if more == 0 { String::new() } else { format!(" and {more} more") };
    let message = format!("nothing uses the range {}: {count}, {shown}{rest}", wording::quoted(&first.range));
    let mend = "use one of them in a step, or take the file away until there is a recipe for it";
    let finding = Finding::new(&PAINT_UNUSED, first.place, message, mend);
    let last = range.last().filter(|last| last.id != first.id);
    Some(last.map_or(finding.clone(), |last| finding.see(last.place, "the last paint of the range")))
}

/// The ids of all paints that something uses.
fn used(guide: &Guide) -> BTreeSet<&str> {
    let steps = || guide.schemes.iter().flat_map(|scheme| &scheme.steps);
    let mixed = steps().flat_map(|step| &step.mix.parts).map(|part| part.paint.id.as_str());
    let bodies = steps().map(|step| &step.body);
    let intros = guide.schemes.iter().map(|scheme| &scheme.intro);
    let texts = bodies.chain(intros).chain(guide.pages.iter().map(|page| &page.body)).flat_map(linked);
    let had = guide.armies.iter().flat_map(|army| &army.have).map(|(paint, _)| paint.id.as_str());
    let thinners = guide.paints.iter().flat_map(|paint| &paint.thin_with).map(String::as_str);
    let suited = guide.paints.iter().flat_map(|paint| &paint.suits).filter_map(|suits| match suits {
        Suits::Paint(id) => Some(id.as_str()),
        Suits::Family(_) => None,
    });
    mixed.chain(texts).chain(had).chain(thinners).chain(suited).collect()
}

fn linked(text: &Prose) -> impl Iterator<Item = &str> {
    text.targets.iter().filter_map(|target| match target {
        Target::Thing(Thing::Paint(id), _) => Some(id.as_str()),
        _ => None,
    })
}
