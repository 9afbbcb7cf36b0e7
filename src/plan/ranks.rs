//! How long the way is from each bundle to the end of its unit: what has the longest goes first.

use super::Seconds;
use super::calendar::Calendar;
use super::workload::Workload;

/// The length of the longest way after each bundle, itself included, in seconds at the desk.
pub(super) fn ranks(work: &Workload, calendar: &Calendar) -> Vec<Seconds> {
    let mut behind: Vec<Seconds> = vec![0; work.passes.len()];
    // Links lead to earlier passes, so one way backwards meets every pass after all that follow it.
    for (at, pass) in work.passes.iter().enumerate().rev() {
        let own = behind.get(at).copied().unwrap_or_default() + work.hands_on(pass);
        if let Some(slot) = behind.get_mut(at) {
            *slot = own;
        }
        for link in &pass.links {
            if let Some(slot) = behind.get_mut(link.pass) {
                *slot = (*slot).max(own + at_the_desk(link.rest, calendar));
            }
        }
    }
    let rank = |bundle: &super::workload::Bundle| behind.get(bundle.passes.start).copied().unwrap_or_default();
    work.bundles.iter().map(rank).collect()
}

/// What a wait costs at the desk: in the evening its own length, and one evening for each rhythm of evenings.
fn at_the_desk(rest: Seconds, calendar: &Calendar) -> Seconds {
    let length = calendar.usual();
    rest.min(length) + rest.saturating_sub(length) / calendar.rhythm().max(1) * length
}
