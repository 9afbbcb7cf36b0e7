//! Hands-on time as a plan counts it: whole seconds for one model and one coat.

use super::Seconds;
use crate::bench::{Bench, Minutes};
use crate::film::usual_minutes;
use crate::guide::Step;

/// Hands-on time for one model and one coat, in whole seconds.
pub(super) fn each(step: &Step, bench: &Bench) -> Seconds {
    match step.minutes {
        Some(minutes) => {
            let (over, under) = minutes.terms();
            over.saturating_mul(60).div_ceil(under.max(1))
        }
        None => Seconds::from(Minutes(usual_minutes(step, bench)).as_time().as_seconds()),
    }
}
