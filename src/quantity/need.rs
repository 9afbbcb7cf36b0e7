//! What one step needs: the coefficients of the [formula](super), how they came about, and the amounts for a number
//! of models.

use serde::Serialize;

use super::counting::Counting;
use super::density;
use super::drop_size::units;
use super::estimate::{Estimate, pooled};
use super::extra::{self, Extra};
use super::laying::{Laying, ModelSize};
use super::measured_out::{By, Measure, MeasuredOut, counted, times_over};
use super::portion::{LEAST_LOAD, Portion};
use super::reach::{Touched, touched};
use super::recipe::Recipe;
use super::sum::Sum;
use super::surface::ModelSurface;
use super::trace::smallest_drop;
use super::wet::{is_muddy, is_sealing, on_base, wet};
use crate::bench::{Bench, Figure, minutes};
use crate::film::{Conditions, Film, What};
use crate::guide::{Measured, Mix, Step, Stock};
use crate::measure::Millilitres;
use crate::trade::{Family, Kind};

/// What a step needs, for any number of models.
#[derive(Debug, Clone, PartialEq)]
pub struct StepNeed {
    /// How the figures came about.
    pub sum: Sum,
    /// The coefficients, for pages to calculate with.
    pub scaling: Scaling,
    /// The lines of the mix, in the order of `step.mix.parts`.
    pub portions: Vec<Portion>,
    /// What is used up beside the mix: cleaner, decal softener.
    pub extras: Vec<Extra>,
    /// Whether one lot is mixed for all models.
    pub together: bool,
    /// How it is counted out; `None` for powders, pastes and cans.
    pub measure: Option<Measure>,
    /// The smallest drop of what is in the mix.
    pub drop: Millilitres,
}

/// The coefficients of the [formula](super), as a page embeds them. All volumes are in ml.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Scaling {
    /// What a single model takes.
    pub first: f64,
    /// What each of several models takes.
    pub per_model: f64,
    /// What is lost, however many there are.
    pub fixed: f64,
    /// The reserve of a lot for several models, as a share of the need; 0 where no lot is mixed.
    pub reserve: f64,
    /// The least reserve.
    pub reserve_least: f64,
    /// What one load holds: a cup of the airbrush, a palette; `null` where nothing is loaded.
    pub load: Option<f64>,
    /// The factor by which the amounts may be off, up or down.
    pub spread: f64,
    /// The same with the size of a drop, for numbers of drops.
    pub spread_drops: f64,
    /// How it is measured out.
    #[serde(flatten)]
    pub counting: Counting,
    /// So much of a recipe may be missing. The script of a page has it with the figures that all pages share.
    #[serde(skip)]
    pub missing: f64,
}

/// What a step needs for a number of models.
#[derive(Debug, Clone, PartialEq)]
pub struct StepAmounts {
    /// The number of models.
    pub models: u32,
    /// What is needed, losses and reserve included: what the lot is measured out for.
    pub need: Estimate,
    /// The lot, measured out.
    pub out: MeasuredOut,
    /// All that is mixed: whole recipes, which may be more than is needed; at the bounds, what may be needed.
    pub lot: Estimate,
    /// What of it is reserve.
    pub reserve: Millilitres,
    /// Each line of the mix, in the order of `step.mix.parts`; they add up to the lot.
    pub parts: Vec<Estimate>,
    /// Each of the step's extras, in their order.
    pub extras: Vec<Estimate>,
    /// How many loads: cups of the airbrush, palettes; 0 where nothing is loaded.
    pub loads: u32,
}

impl Scaling {
    /// What is needed for a number of models without a reserve.
    pub fn need(&self, models: u32) -> Millilitres {
        let on_the_way = self.first.max(self.per_model * f64::from(models));
        Millilitres(if models == 0 { 0.0 } else { on_the_way + self.fixed })
    }

    /// What a lot for a number of models holds beyond the need.
    pub fn reserve_for(&self, models: u32) -> Millilitres {
        let wanted = (self.reserve * self.need(models).0).max(self.reserve_least);
        Millilitres(if models < 2 || self.reserve <= 0.0 { 0.0 } else { wanted })
    }

    /// What of the need goes by the models: without what is lost, and with the reserve once it is more than the least one.
    pub fn by_models(&self, models: u32) -> Millilitres {
        let grows = models > 1 && self.reserve * self.need(models).0 > self.reserve_least;
        Millilitres(self.per_model * f64::from(models) * if grows { 1.0 + self.reserve } else { 1.0 })
    }
}

impl StepNeed {
    /// The amounts for a number of models.
    pub fn for_models(&self, models: u32) -> StepAmounts {
        self.for_share(models, 1.0)
    }

    /// The amounts for a share of the coats on a number of models, where the rest of them follows on another evening: what
    /// is lost with a lot is lost with each, and the reserve is shared out.
    pub fn for_share(&self, models: u32, share: f64) -> StepAmounts {
        let reserve = Millilitres(self.scaling.reserve_for(models).0 * share);
        let fixed = if models == 0 { 0.0 } else { self.scaling.fixed };
        let need = (self.scaling.need(models).0 - fixed) * share + fixed + reserve.0;
        let need = Estimate::within(Millilitres(need), self.scaling.spread);
        let out = self.measured_out(need.likely);
        let lot = need.of_lot(out.total(), out.least());
        let share = |volume: &Millilitres| volume.0 / lot.likely.0.max(f64::MIN_POSITIVE);
        StepAmounts {
            models,
            need,
            lot,
            reserve,
            parts: out.volumes.iter().map(|volume| lot.times(share(volume))).collect(),
            extras: self.extras.iter().map(|extra| extra.for_models(models)).collect(),
            loads: self.scaling.load.map_or(0, |load| out.loads(Millilitres(load), self.scaling.missing)),
            out,
        }
    }

    /// A volume of the mix, measured out.
    pub fn measured_out(&self, volume: Millilitres) -> MeasuredOut {
        measure_out(self.measure.as_ref(), &self.portions, volume)
    }

    /// Whether all that a palette takes is mixed at once: it is one lot for all models, or no more than lies on it anyway.
    pub fn is_mixed_at_once(&self, amounts: &StepAmounts) -> bool {
        let palette = self.scaling.load.and_then(|load| self.filling(Millilitres(load)));
        self.together || palette.is_none_or(|palette| amounts.out.total().0 <= palette.total().0)
    }

    /// A load of the mix in drops, as full as whole recipes make it; `None` where it is not measured in drops.
    pub fn filling(&self, load: Millilitres) -> Option<MeasuredOut> {
        let recipe = &self.measure.as_ref()?.drops;
        let one = counted(By::Drops, recipe, &drops(&self.portions), (Millilitres(f64::MIN_POSITIVE), 0.0));
        let times = one.in_load(load, self.scaling.missing);
        Some(times_over(one, times))
    }
}

/// A volume of a mix, measured out by the recipes that it has.
pub(super) fn measure_out(measure: Option<&Measure>, portions: &[Portion], volume: Millilitres) -> MeasuredOut {
    let Some(measure) = measure.filter(|_| volume.0 > 0.0) else { return by_volume(portions, volume) };
    let poured = measure.poured(volume).filter(|_| volume.0 >= measure.pour_from.0);
    match poured {
        // One product keeps no ratio: it is refilled as it is used up, and nobody counts the marks.
        Some(poured) if portions.len() == 1 => MeasuredOut { volumes: poured.volumes, ..by_volume(portions, volume) },
        Some(poured) => poured,
        None => counted(By::Drops, &measure.drops, &drops(portions), (volume, measure.missing)),
    }
}

fn drops(portions: &[Portion]) -> Vec<Millilitres> {
    portions.iter().map(|portion| portion.unit).collect()
}

fn by_volume(portions: &[Portion], volume: Millilitres) -> MeasuredOut {
    let volumes = portions.iter().map(|portion| Millilitres(volume.0 * portion.share)).collect();
    MeasuredOut { by: By::Volume, counts: Vec::new(), parts: Vec::new(), times: 1, near: false, sized: false, volumes }
}

/// What the step at a position of a film needs; `None` where it uses no product, or an area has no share.
pub fn step_need(
    stock: &Stock<'_>,
    film: &Film<'_>,
    position: usize,
    surface: &ModelSurface,
    conditions: &Conditions,
) -> Option<StepNeed> {
    let step = film.step(position)?;
    let bench = &conditions.bench;
    let touched = touched(film, position, step, surface, bench)?;
    let sum = sum(film, position, step, touched, surface, bench);
    let extras = extra::extras(stock, film, position, &sum, bench);
    if step.mix.parts.is_empty() && extras.is_empty() {
        return None;
    }
    let portions = portions(&step.mix, sum.laying, bench);
    let measure = measure(&step.mix, &portions, bench);
    let own = if sum.laying.sprays() { Figure::SpreadSpray } else { Figure::SpreadBrush };
    let lines = if touched.fine { bench.get(Figure::SpreadLines) } else { 1.0 };
    let spread = pooled([surface.spread, bench.get(Figure::SpreadFilm), bench.get(own), lines]);
    let lot = step.together && !matches!(sum.laying, Laying::Can(_));
    let reserved = |figure: Figure| if has_reserve(step, lot) { bench.get(figure) } else { 0.0 };
    let scaling = Scaling {
        first: sum.first().0,
        per_model: sum.per_model().0,
        fixed: sum.lost.0,
        reserve: reserved(Figure::LotReserve),
        reserve_least: reserved(Figure::LotReserveLeast),
        load: load(sum.laying).map(|figure| bench.get(figure).max(LEAST_LOAD)),
        spread,
        spread_drops: pooled([spread, bench.get(Figure::SpreadDrop)]),
        counting: Counting::of(&portions, measure.as_ref(), bench),
        missing: bench.get(Figure::RecipeMissing),
    };
    let drop = smallest_drop(&step.mix, bench);
    Some(StepNeed { sum, scaling, portions, extras, together: lot, measure, drop })
}

fn sum(film: &Film<'_>, position: usize, step: &Step, touched: Touched, surface: &ModelSurface, bench: &Bench) -> Sum {
    let coat = film.coat(position);
    let own = coat.map(|coat| match coat.what {
        _ if is_sealing(step, coat) => What::Ground,
        _ if is_muddy(step, bench) => What::Texture,
        what => what,
    });
    let what = own.or_else(|| on_base(step));
    let family = coat.map_or(Family::Water, |coat| coat.cup.family());
    let model = &film.scheme().model;
    let size = ModelSize::of(model, surface, bench);
    let reached = touched.area.0 * touched.areas;
    let large = size == ModelSize::Terrain && !touched.fine && reached >= bench.get(Figure::LargeBrushFrom);
    let laying = Laying::of(step, what, family, (size, large));
    let (efficiency_alone, efficiency) = laying.efficiency(bench);
    // Not `sum`, which makes -0 of nothing, and JSON would say so.
    let lost = lost(step, laying).iter().fold(0.0, |lost, figure| lost + bench.get(*figure));
    let at_the_palette =
        minutes(film.scheme(), step, bench) * f64::from(step.coats) / bench.get(Figure::PaletteFresh).max(1.0);
    let refilled = if laying.is_from_palette() { at_the_palette * bench.get(Figure::PaletteRefill) } else { 0.0 };
    Sum {
        area: touched.area,
        base: touched.base,
        source: surface.source,
        areas: touched.areas,
        zones: touched.zones,
        film: wet(film, position, step, laying, bench),
        coats: step.coats,
        rounds: rounds(&step.mix),
        laying,
        efficiency,
        efficiency_alone,
        refilled: Millilitres(refilled),
        lost: Millilitres(lost),
    }
}

/// Whether a step's mix has a reserve: a lot for all models has one, unless all of it is poured from pots that have theirs, or
/// nothing is mixed: more of one bottle is always quite like it.
fn has_reserve(step: &Step, lot: bool) -> bool {
    let in_pots = |at: usize| step.mix.pots.iter().any(|poured| poured.pot.together && poured.parts.contains(&at));
    lot && step.mix.is_mixed() && !(0..step.mix.parts.len()).all(in_pots)
}

/// What is lost with every lot.
fn lost(step: &Step, laying: Laying) -> &'static [Figure] {
    match laying {
        _ if step.mix.parts.is_empty() => &[],
        Laying::Airbrush(_) => &[Figure::AirbrushResidue, Figure::MixingCupResidue],
        Laying::Can(_) => &[],
        _ if step.together && step.mix.is_mixed() => &[Figure::MixingCupResidue],
        _ => &[],
    }
}

/// What one load holds.
fn load(laying: Laying) -> Option<Figure> {
    match laying {
        Laying::Airbrush(_) => Some(Figure::CupSize),
        Laying::Can(_) | Laying::Powder | Laying::Paste | Laying::Deep | Laying::LargeBrush => None,
        _ => Some(Figure::PaletteLoad),
    }
}

pub(super) fn portions(mix: &Mix, laying: Laying, bench: &Bench) -> Vec<Portion> {
    let volumes = mix.parts.iter().map(|part| match mix.measured {
        _ if mix.is_beside() => round(mix, part.paint.kind),
        Measured::Parts => part.amount.as_f64(),
        Measured::Drops => part.amount.as_f64() * bench.drop(&part.paint).0,
    });
    let volumes: Vec<f64> = volumes.collect();
    let total: f64 = volumes.iter().sum();
    let in_drops = |kind: Kind| {
        !matches!(kind, Kind::Pigment | Kind::Texture)
            && !matches!(laying, Laying::Can(_) | Laying::Powder | Laying::Paste)
    };
    let lines = mix.parts.iter().zip(volumes).zip(units(mix, bench));
    lines
        .map(|((part, volume), unit)| Portion {
            unit,
            share: volume / total,
            drop: in_drops(part.paint.kind).then(|| bench.drop(&part.paint)),
            density: density(&part.paint, bench),
        })
        .collect()
}

/// How much of the surface one product of several goes over that are not mixed: colours share it out, what has no colour
/// goes over all of it.
fn round(mix: &Mix, kind: Kind) -> f64 {
    let coloured = mix.parts.iter().filter(|part| part.paint.kind.has_colour()).count();
    if kind.has_colour() { 1.0 / coloured.max(1) as f64 } else { 1.0 }
}

/// How often a surface is gone over with products that are not mixed.
fn rounds(mix: &Mix) -> f64 {
    if mix.is_beside() { mix.parts.iter().map(|part| round(mix, part.paint.kind)).sum::<f64>().max(1.0) } else { 1.0 }
}

/// What a mark of a small syringe is of one of a measuring cup: a tenth of a millilitre (own estimate).
const SYRINGE: f64 = 0.2;

/// How a mix is counted out, where every line of it can be.
pub(super) fn measure(mix: &Mix, portions: &[Portion], bench: &Bench) -> Option<Measure> {
    let counted = !portions.is_empty() && !mix.unmixed && portions.iter().all(|portion| portion.drop.is_some());
    let marks = Recipe::in_marks(mix, bench);
    let cup = bench.get(Figure::PourMark).max(LEAST_LOAD);
    let syringe = (cup * SYRINGE).max(LEAST_LOAD);
    // So many parts are drawn up in a syringe: in marks of a cup they would be far too much, and in drops too many to count.
    let many = f64::from(marks.parts.iter().sum::<u32>()) > bench.get(Figure::RecipeSmall);
    counted.then(|| Measure {
        drops: Recipe::in_drops(mix, bench),
        marks,
        pour_from: Millilitres(bench.get(Figure::PourFrom)),
        by_marks: if many { vec![Millilitres(syringe)] } else { vec![Millilitres(cup), Millilitres(syringe)] },
        coarse: bench.get(Figure::PourCoarse),
        too_much: bench.get(Figure::PourTooMuch),
        missing: bench.get(Figure::RecipeMissing),
    })
}
