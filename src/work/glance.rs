//! A scheme in figures: what it asks for before one begins.

use std::collections::BTreeSet;

use super::waiting;
use crate::guide::Scheme;
use crate::measure::Time;

/// What a scheme asks for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Glance {
    /// How many steps it has.
    pub steps: usize,
    /// How many products it uses.
    pub paints: usize,
    /// Hands-on time for one model, as far as the steps say.
    pub hands_on: Time,
    /// Waiting, if every step waits for the one before.
    pub waiting: Time,
}

impl Glance {
    /// Adds up the steps of a scheme.
    pub fn of(scheme: &Scheme) -> Self {
        let parts = scheme.steps.iter().flat_map(|step| &step.mix.parts);
        Self {
            steps: scheme.steps.len(),
            paints: parts.map(|part| part.paint.id.as_str()).collect::<BTreeSet<_>>().len(),
            hands_on: scheme.steps.iter().filter_map(crate::guide::Step::hands_on).sum(),
            waiting: scheme.steps.iter().map(waiting).sum(),
        }
    }
}
