//! How much of a pot is mixed: all that the steps take which are poured from it.

use super::estimate::Estimate;
use super::laying::Laying;
use super::measured_out::{Measure, MeasuredOut};
use super::need::{Portion, StepNeed, measure, measure_out, portions};
use crate::bench::Bench;
use crate::guide::{Mix, Pot};
use crate::measure::Millilitres;

/// What is lost or gained where volumes are added up.
const ROUNDING: f64 = 1e-9;

/// What is needed of a pot, measured out once for all.
#[derive(Debug, Clone, PartialEq)]
pub struct PotNeed {
    /// What the steps need of it, their reserves included.
    pub need: Estimate,
    /// All that is mixed.
    pub lot: Estimate,
    /// The same, measured out.
    pub out: MeasuredOut,
    /// The lines of the pot.
    pub portions: Vec<Portion>,
}

impl PotNeed {
    /// The need of a pot for steps that take so much of it.
    pub fn of(pot: &Pot, takes: impl Iterator<Item = Estimate>, bench: &Bench) -> Self {
        let need: Estimate = takes.sum();
        let portions = portions(&pot.mix, Laying::Brush, bench);
        // What the steps take of it is measured out already: nothing of that may be missing.
        let whole = measure(&pot.mix, &portions, bench).map(|measure| Measure { missing: 0.0, ..measure });
        let out = measure_out(whole.as_ref(), &portions, Millilitres(need.likely.0 * (1.0 - ROUNDING)));
        Self { need, lot: need.holding(out.total()), out, portions }
    }
}

/// What a step takes of a pot for a share of its coats on a number of models, as it is measured out; `None` where it takes
/// nothing of it.
pub fn taken_of(pot: &Pot, mix: &Mix, need: &StepNeed, (models, share): (u32, f64)) -> Option<Estimate> {
    let poured = mix.pots.iter().find(|poured| poured.pot.id == pot.id)?;
    Some(need.for_share(models, share).parts.get(poured.parts.clone())?.iter().copied().sum())
}
