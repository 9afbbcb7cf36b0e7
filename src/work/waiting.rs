//! How long a step keeps the painter waiting.

use crate::guide::Step;
use crate::measure::Time;

/// The waits between the coats and the drying after the last one, as far as the step or its paints say.
pub fn waiting(step: &Step) -> Time {
    let between = step.wait.map(|wait| wait.times(step.coats.saturating_sub(1))).unwrap_or_default();
    between + drying(step).unwrap_or_default()
}

/// The drying after the last coat: as the step says, otherwise the longest recoat time of its paints.
pub fn drying(step: &Step) -> Option<Time> {
    step.dry.or_else(|| step.mix.parts.iter().filter_map(|part| part.paint.recoat).max())
}
