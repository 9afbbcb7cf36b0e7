//! Lots: what several units get together, out of one pot and on one evening, so that an army looks like one.
//!
//! A step that is done `together` goes over all models of its unit in one go. Where another unit has the same mix laid in
//! the same way and `together` too, its models had better stand there as well: whoever is ready first waits. That may cost
//! hours and is never to cost an evening, so a lot is gathered only where the plan ends as early with it.

use super::calendar::Calendar;
use super::ranks::ranks;
use super::schedule::{Rule, Schedule, schedule};
use super::workload::{Bundle, Workload};

/// The workload with the lots gathered that need no further evening, for the plainest schedule; `None` where there are none.
pub(super) fn gathered(work: &Workload, calendar: &Calendar) -> Option<Workload> {
    let rule = Rule::plain(ranks(work, calendar));
    let plain = ends(&schedule(work, calendar, &rule)?);
    let mut gathered = work.clone();
    for lot in lots(work) {
        gathered.lots.push(lot);
        let is_late = schedule(&gathered, calendar, &rule).is_none_or(|found| ends(&found) > plain);
        if is_late {
            gathered.lots.pop();
        }
    }
    (!gathered.lots.is_empty()).then_some(gathered)
}

/// The evening on which a schedule ends.
pub(super) fn ends(found: &Schedule) -> usize {
    found.stretches.iter().map(|stretch| stretch.evening).max().unwrap_or_default()
}

/// The bundles of several units that could be one lot. What a unit gets twice is one lot the first time, and another the
/// second.
fn lots(work: &Workload) -> Vec<Vec<usize>> {
    let mut lots: Vec<(usize, usize, Vec<usize>)> = Vec::new();
    for (at, bundle) in work.bundles.iter().enumerate() {
        let Some((kit, unit)) = of_lot(work, bundle) else { continue };
        let is_before = |other: &&Bundle| of_lot(work, other) == Some((kit, unit));
        let turn = work.bundles.iter().take(at).filter(is_before).count();
        match lots.iter_mut().find(|lot| (lot.0, lot.1) == (kit, turn)) {
            Some((.., bundles)) => bundles.push(at),
            None => lots.push((kit, turn, vec![at])),
        }
    }
    lots.into_iter().map(|(.., bundles)| bundles).filter(|bundles| bundles.len() > 1).collect()
}

/// What a bundle is laid with, and whose it is, where it goes over all models of its unit in one go.
fn of_lot(work: &Workload, bundle: &Bundle) -> Option<(usize, usize)> {
    let passes = work.slice(&bundle.passes);
    let first = passes.first().filter(|first| first.together && !work.is_bare(first))?;
    let one_step = passes.iter().all(|pass| pass.step == first.step);
    let all_at_once = bundle.run.is_some_and(|run| run >= work.models_of(first));
    (one_step && all_at_once).then_some((first.kit, first.unit))
}
