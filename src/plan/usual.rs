//! Hands-on time of a step, in the plan's whole seconds.

use super::Seconds;
use crate::bench::{Bench, usual_minutes};
use crate::guide::{Scheme, Step};

/// Hands-on time for one model and one coat, in whole seconds.
pub(super) fn each(scheme: &Scheme, step: &Step, bench: &Bench) -> Seconds {
    if let Some(minutes) = step.minutes {
        let (over, under) = minutes.terms();
        return over.saturating_mul(60).div_ceil(under.max(1));
    }
    let seconds = (usual_minutes(scheme, step, bench) * 60.0).ceil().clamp(0.0, f64::from(u32::MAX));
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "rounded and clamped to 0 ..= u32::MAX"
    )]
    let seconds = seconds as Seconds;
    seconds
}
