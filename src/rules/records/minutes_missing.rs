//! An army is planned by the minutes of its steps; a step without them counts as no work at all.

use std::collections::BTreeSet;

use crate::guide::{Guide, Step, Unit};
use crate::report::{Check, Finding, Group, Level, wording};

/// Steps of an army's schemes say how long they take.
pub(in crate::rules) static MINUTES_MISSING: Check = Check {
    id: "minutes-missing",
    level: Level::Note,
    about: "every step of a scheme that an army is painted in says how many minutes it takes",
    why: "the evenings of the army are planned from them, and a step without minutes is planned with the usual ones of its stage and its model, not with yours",
    group: Group::Bookkeeping,
    safety: false,
};

/// One note for each scheme of an army with such steps.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    let mut seen = BTreeSet::new();
    let units = guide.armies.iter().flat_map(|army| &army.units);
    units
        .filter(|unit| unit.scheme.whole && seen.insert(unit.scheme.base().to_owned()))
        .filter_map(check_unit)
        .collect()
}

fn check_unit(unit: &Unit) -> Option<Finding> {
    let silent: Vec<&Step> = unit.scheme.steps.iter().filter(|step| step.minutes.is_none()).collect();
    let first = silent.first()?;
    let message = if silent.len() == unit.scheme.steps.len() {
        format!("no step of {} says how many minutes it takes", wording::quoted(&unit.scheme.title))
    } else {
        let titles = wording::listed(silent.iter().map(|step| &step.title));
        format!("no minutes are given for {titles} in {}", wording::quoted(&unit.scheme.title))
    };
    let mend = "time it once and write 'minutes' for one model and one coat";
    let finding = Finding::new(&MINUTES_MISSING, first.places.title, message, mend);
    Some(finding.see(unit.place, "the unit that is painted in it"))
}
