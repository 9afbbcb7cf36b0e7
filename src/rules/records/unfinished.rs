//! A scheme that is said to be finished has all that readers look for.

use crate::guide::{Guide, Scheme, Step};
use crate::report::{Check, Finding, Group, Level, wording};

/// A finished scheme is finished.
pub(in crate::rules) static UNFINISHED: Check = Check {
    id: "unfinished",
    level: Level::Warning,
    about: "a scheme with 'finished: true' has a photo and a level, and at every step its minutes and a sentence for the card",
    why: "readers choose a scheme by its picture, its level and its hours, and paint from the card",
    group: Group::Bookkeeping,
    safety: false,
};

/// What finished schemes still lack.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    let finished = guide.schemes.iter().filter(|scheme| scheme.finished && scheme.version.is_none() && scheme.whole);
    finished.flat_map(|scheme| lacking(scheme)).collect()
}

fn lacking(scheme: &Scheme) -> Vec<Finding> {
    let without = |lacks: fn(&Step) -> bool| -> Vec<&Step> { scheme.steps.iter().filter(|step| lacks(step)).collect() };
    let minutes = without(|step| step.minutes.is_none());
    let cards = without(|step| step.card.is_none() && step.body.markdown().trim().is_empty());
    let of_steps = |steps: Vec<&Step>, what: &str, mend: &str| {
        let first = steps.first()?;
        let titles = wording::listed(steps.iter().take(NAMED).map(|step| &step.title));
        let more = steps.len().saturating_sub(NAMED);
        let more = if more == 0 { String::new() } else { format!(" and {more} more") };
        let message = format!("{} is finished, and {titles}{more} {what}", wording::quoted(&scheme.title));
        Some(Finding::new(&UNFINISHED, first.places.title, message, mend))
    };
    let of_scheme = |missing: bool, what: &str, mend: &str| {
        let message = format!("{} is finished and has no {what}", wording::quoted(&scheme.title));
        missing.then(|| Finding::new(&UNFINISHED, scheme.place, message, mend))
    };
    let found = [
        of_scheme(scheme.photo.is_none(), "photo", "add 'photo: …' and 'alt: …', or take 'finished' out"),
        of_scheme(scheme.level.is_none(), "level", "add 'level: easy', 'steady' or 'demanding'"),
        of_steps(minutes, "without minutes", "time it once and write 'minutes' for one model and one coat"),
        of_steps(cards, "without a sentence for the card", "write the instruction, or 'card: …'"),
    ];
    found.into_iter().flatten().collect()
}

/// So many steps are named.
const NAMED: usize = 4;
