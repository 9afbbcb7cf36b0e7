//! The plan of a workload: the best schedule that was found, with what units get together in lots, and tidied.

use super::calendar::Calendar;
use super::evening::{self, Plan};
use super::workload::Workload;
use super::{lots, schedule, search, sew};

/// The plan that painters get; `None` where none was found within the most evenings.
pub(super) fn chosen(work: &Workload, calendar: &Calendar) -> Option<Plan> {
    let at_once = on_one_evening(work, calendar);
    let work = at_once.as_ref().unwrap_or(work);
    let (apart, bound) = search::search(work, calendar)?;
    let gathered = lots::gathered(work, calendar);
    let in_lots = gathered.as_ref().and_then(|work| Some((work, search::search(work, calendar)?.0)));
    let in_lots = in_lots.filter(|(_, (_, found))| lots::ends(found) <= lots::ends(&apart.1));
    let (work, best) = in_lots.unwrap_or((work, apart));
    let mut found = sew::sewn(work, calendar, best);
    found.stretches = schedule::tidy(work, found.stretches);
    found.finish = found.stretches.iter().map(|stretch| stretch.end).max().unwrap_or_default();
    let bound = bound.min(calendar.worked(found.finish));
    Some(evening::plan(work, calendar, &found, bound))
}

/// The workload with every coat for itself, where all of it goes into one evening: there is nothing that could be torn apart.
fn on_one_evening(work: &Workload, calendar: &Calendar) -> Option<Workload> {
    let apart = work.unchained()?;
    (lots::ends(&search::first(&apart, calendar)?) == 0).then_some(apart)
}
