//! Eyes, lenses, gems: where an area is no more than a spot, and a detail is the first colour that it gets, the detail is
//! the area and no spot on it.

use crate::guide::{Area, Step};
use crate::measure::Share;
use crate::trade::{Reach, Stage};

/// An area of no more than this is a spot itself. Eyes, lenses and gems of a figure are 1 to 5 % of its surface (a
/// judgement from practice, the same as what is dabbed on in one go).
pub(crate) const SPOT_PERCENT: u64 = 5;

/// Lets details reach all of such areas, where the author does not say how far they reach.
pub(super) fn fill(steps: &mut [Step], areas: &[Area]) {
    let most = Share::percent(SPOT_PERCENT);
    let is_spot = |at: &usize| areas.get(*at).and_then(|area| area.share).is_some_and(|share| share <= most);
    let whole: Vec<bool> = (0..steps.len())
        .map(|at| {
            let step = &steps[at];
            let unsaid = step.stage == Stage::Detail && step.places.reach.is_none() && !step.mix.parts.is_empty();
            unsaid
                && !step.areas.is_empty()
                && step.areas.iter().all(|area| is_spot(area) && is_first(steps, at, *area))
        })
        .collect();
    for (step, _) in steps.iter_mut().zip(whole).filter(|(_, whole)| *whole) {
        step.reach = Reach::All;
    }
}

/// Whether no other step colours an area, but details after this one.
fn is_first(steps: &[Step], at: usize, area: usize) -> bool {
    let others = steps.iter().enumerate().filter(|(other, step)| *other != at && step.areas.contains(&area));
    others.filter(|(_, step)| colours(step)).all(|(other, step)| step.stage == Stage::Detail && other > at)
}

/// Whether a step leaves a colour of its own on its areas: light and dark that is sprayed before any colour is ground still.
fn colours(step: &Step) -> bool {
    let is_colour = matches!(
        step.stage,
        Stage::Basecoat
            | Stage::Layer
            | Stage::Glaze
            | Stage::Shade
            | Stage::PanelWash
            | Stage::Highlight
            | Stage::Detail
            | Stage::Weather
            | Stage::Pigment
    );
    is_colour && !step.mix.parts.is_empty()
}
