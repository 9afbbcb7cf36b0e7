//! A scheme in figures: what it asks for before one begins.

use std::collections::BTreeSet;

use super::StepTimes;
use super::beside::beside;
use crate::guide::Scheme;
use crate::measure::Time;
use crate::quantity::StepNeed;

/// What a scheme asks for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Glance {
    /// How many steps it has.
    pub steps: usize,
    /// How many products it uses, with what it uses up beside its mixes: as many as are on its shopping list.
    pub products: usize,
    /// Hands-on time for one model.
    pub hands_on: Time,
    /// Whether some of it is the usual for such steps, because the author does not say.
    pub usual: bool,
}

impl Glance {
    /// Adds up the steps of a scheme.
    pub fn of(scheme: &Scheme, times: &[StepTimes], needs: &[Option<StepNeed>]) -> Self {
        let mixed = scheme.steps.iter().flat_map(|step| &step.mix.parts).map(|part| &part.paint);
        let beside = needs.iter().flatten().flat_map(beside).map(|(_, paint)| paint);
        Self {
            steps: scheme.steps.len(),
            products: mixed.chain(beside).map(|paint| paint.id.as_str()).collect::<BTreeSet<_>>().len(),
            hands_on: times.iter().map(|step| step.hands_on).sum(),
            usual: times.iter().any(|step| step.usual),
        }
    }
}
