//! How much of a pot is mixed: all that the steps take which are poured from it, and a reserve where it is one lot.

use serde::Serialize;

use super::counting::Counting;
use super::estimate::Estimate;
use super::laying::Laying;
use super::measured_out::{Measure, MeasuredOut};
use super::need::{StepNeed, measure, measure_out, portions};
use super::portion::Portion;
use crate::bench::{Bench, Figure};
use crate::guide::{Mix, Pot};
use crate::measure::Millilitres;

/// What is lost or gained where volumes are added up.
const ROUNDING: f64 = 1e-9;

/// A step that is poured from a pot.
#[derive(Debug, Clone, Copy)]
pub struct PotUse<'a> {
    /// Whose models it paints: what has the same number is the same models.
    pub unit: usize,
    /// How many these are.
    pub models: u32,
    /// Which share of its coats is laid with this pot, from 0 to 1.
    pub share: f64,
    /// The mix of the step.
    pub mix: &'a Mix,
    /// What the step needs.
    pub need: &'a StepNeed,
}

/// What is needed of a pot, measured out once for all.
#[derive(Debug, Clone, PartialEq)]
pub struct PotNeed {
    /// What is mixed for: what the steps take, and the reserve.
    pub need: Estimate,
    /// All that is mixed.
    pub lot: Estimate,
    /// The same, measured out.
    pub out: MeasuredOut,
    /// What of it is reserve.
    pub reserve: Millilitres,
    /// What the models take, without what is lost and the reserve that does not grow with them.
    pub by_models: Millilitres,
    /// The lines of the pot.
    pub portions: Vec<Portion>,
}

/// How a pot is measured out, as a page embeds it. All volumes are in ml.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PotScaling {
    /// The reserve of several models, as a share of what the steps take; 0 where it is not one lot.
    pub reserve: f64,
    /// The least reserve.
    pub reserve_least: f64,
    /// How it is measured out.
    #[serde(flatten)]
    pub counting: Counting,
}

impl PotNeed {
    /// The need of a pot for the steps that are poured from it.
    pub fn of(pot: &Pot, uses: &[PotUse<'_>], bench: &Bench) -> Self {
        let taken: Estimate = uses.iter().map(|of| of.takes(pot)).sum();
        let reserve = reserve(pot, uses, taken.likely, bench);
        let with_reserve = (taken.likely.0 + reserve.0) / taken.likely.0.max(f64::MIN_POSITIVE);
        let need = taken.times(with_reserve);
        let (portions, measure) = measured(pot, bench);
        let out = measure_out(measure.as_ref(), &portions, Millilitres(need.likely.0 * (1.0 - ROUNDING)));
        let grows = reserve.0 > bench.get(Figure::LotReserveLeast);
        let by_models: f64 = uses.iter().map(|of| of.by_models(pot)).sum();
        let by_models = Millilitres(by_models * if grows { with_reserve } else { 1.0 });
        Self { need, lot: need.of_lot(out.total(), out.least()), out, reserve, by_models, portions }
    }

    /// Each line of the pot, in the order of its parts; they add up to the lot.
    pub fn parts(&self) -> impl Iterator<Item = Estimate> + '_ {
        let share = |volume: &Millilitres| volume.0 / self.lot.likely.0.max(f64::MIN_POSITIVE);
        self.out.volumes.iter().map(move |volume| self.lot.times(share(volume)))
    }
}

impl PotScaling {
    /// How a pot is measured out.
    pub fn of(pot: &Pot, bench: &Bench) -> Self {
        let (portions, measure) = measured(pot, bench);
        Self {
            reserve: if pot.together { bench.get(Figure::LotReserve) } else { 0.0 },
            reserve_least: bench.get(Figure::LotReserveLeast),
            counting: Counting::of(&portions, measure.as_ref(), bench),
        }
    }
}

impl PotUse<'_> {
    /// What the step takes of the pot, as it is measured out.
    fn takes(&self, pot: &Pot) -> Estimate {
        let amounts = self.need.for_share(self.models, self.share);
        self.lines(pot).filter_map(|line| amounts.parts.get(line).copied()).sum()
    }

    /// What of that goes by the models.
    fn by_models(&self, pot: &Pot) -> f64 {
        let shares = self.lines(pot).filter_map(|line| self.need.portions.get(line)).map(|portion| portion.share);
        self.need.scaling.by_models(self.models).0 * self.share * shares.sum::<f64>()
    }

    fn lines(&self, pot: &Pot) -> impl Iterator<Item = usize> {
        let poured = self.mix.pots.iter().find(|poured| poured.pot.id == pot.id);
        poured.map(|poured| poured.parts.clone()).unwrap_or_default()
    }
}

/// What a pot that is one lot for several models holds beyond what the steps take; more of one bottle is always quite like it.
fn reserve(pot: &Pot, uses: &[PotUse<'_>], taken: Millilitres, bench: &Bench) -> Millilitres {
    let mut units: Vec<(usize, u32)> = uses.iter().map(|of| (of.unit, of.models)).collect();
    units.sort_unstable();
    units.dedup();
    let models = units.iter().fold(0_u32, |sum, (_, models)| sum.saturating_add(*models));
    let share = bench.get(Figure::LotReserve);
    let is_wanted = pot.together && pot.mix.is_mixed() && models > 1 && share > 0.0 && taken.0 > 0.0;
    Millilitres(if is_wanted { (share * taken.0).max(bench.get(Figure::LotReserveLeast)) } else { 0.0 })
}

/// The lines of a pot, and how they are counted out. What the steps take is measured out already: nothing of that may be
/// missing.
fn measured(pot: &Pot, bench: &Bench) -> (Vec<Portion>, Option<Measure>) {
    let portions = portions(&pot.mix, Laying::Brush, bench);
    let measure = measure(&pot.mix, &portions, bench).map(|measure| Measure { missing: 0.0, ..measure });
    (portions, measure)
}
