//! Hands-on time of a step, in the plan's whole seconds.

use super::Seconds;
use crate::bench::{Bench, usual_minutes};
use crate::guide::{Model, Step};

/// Hands-on time for one model and one coat, in whole seconds.
pub(super) fn each(step: &Step, model: &Model, bench: &Bench) -> Seconds {
    match step.minutes {
        Some(minutes) => {
            let (over, under) = minutes.terms();
            over.saturating_mul(60).div_ceil(under.max(1))
        }
        None => Seconds::from(crate::bench::Minutes(usual_minutes(step, model, bench)).as_time().as_seconds()),
    }
}
