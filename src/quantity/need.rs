//! What one step needs: the coefficients of the [formula](super), how they came about, and the amounts for a number
//! of models.

use serde::Serialize;

use super::estimate::{Estimate, pooled};
use super::extra::{self, Extra};
use super::laying::{Laying, ModelSize};
use super::reach::{Touched, touched};
use super::surface::{ModelSurface, SurfaceSource};
use super::{density, drops};
use crate::bench::{Figure, Micrometres};
use crate::film::{Coat, Conditions, Film, What};
use crate::guide::{Measured, Mix, Step, Stock};
use crate::measure::{Millilitres, SquareCentimetres};
use crate::trade::{Family, Kind};

/// What a step needs, for any number of models.
#[derive(Debug, Clone, PartialEq)]
pub struct StepNeed {
    /// How the figures came about.
    pub sum: Sum,
    /// The coefficients, for pages to reckon with.
    pub scaling: Scaling,
    /// The lines of the mix, in the order of `step.mix.parts`.
    pub portions: Vec<Portion>,
    /// What is used up beside the mix: cleaner, decal softener.
    pub extras: Vec<Extra>,
    /// Whether one lot is mixed for all models.
    pub together: bool,
}

/// One line of a mix.
#[derive(Debug, Clone, PartialEq)]
pub struct Portion {
    /// Its share of the mix by volume, from 0 to 1; the shares add up to 1.
    pub share: f64,
    /// Its share of the drops of the mix, as a whole number of the same small unit on every line.
    pub weight: u128,
    /// How large its drop is; `None` where it is not measured in drops: powders, pastes, cans.
    pub drop: Option<Millilitres>,
    /// Grams per millilitre.
    pub density: f64,
}

/// The factors of what one model takes: their product is [`Sum::per_model`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sum {
    /// The surface of one model.
    pub area: SquareCentimetres,
    /// How it is known.
    pub source: SurfaceSource,
    /// The share of it that the step's areas are, from 0 to 1.
    pub areas: f64,
    /// The share of these areas that the step touches, from 0 to 1.
    pub zones: f64,
    /// The wet film of one coat.
    pub film: Micrometres,
    /// How many coats.
    pub coats: u32,
    /// How it is laid.
    pub laying: Laying,
    /// The share that reaches the model, where several are painted.
    pub efficiency: f64,
    /// The share that reaches the model, where one alone is painted.
    pub efficiency_alone: f64,
    /// What is lost with the lot: in cup and needle, on the wall of the mixing cup.
    pub lost: Millilitres,
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
    /// The share of each line of the mix.
    pub shares: Vec<f64>,
    /// The drop of each line, where it is measured in drops.
    pub drops: Vec<Option<f64>>,
}

/// What a step needs for a number of models.
#[derive(Debug, Clone, PartialEq)]
pub struct StepAmounts {
    /// The number of models.
    pub models: u32,
    /// All that is mixed, losses and reserve included.
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

impl Sum {
    /// What each of several models takes of the mix.
    pub fn per_model(&self) -> Millilitres {
        Millilitres(self.on_model().0 / self.efficiency)
    }

    /// What a single model takes of the mix.
    pub fn first(&self) -> Millilitres {
        Millilitres(self.on_model().0 / self.efficiency_alone)
    }

    /// What lies wet on one model: 1 cm² × 1 µm is a ten-thousandth of a millilitre.
    pub fn on_model(&self) -> Millilitres {
        Millilitres(self.area.0 * self.areas * self.zones * self.film.0 * f64::from(self.coats) * 1e-4)
    }
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

    /// How many loads a lot makes of a size.
    pub fn loads(lot: Millilitres, load: Millilitres) -> u32 {
        let loads = (lot.0 / load.0.max(LEAST_LOAD) - 1e-9).ceil();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 1 ..= u32::MAX")]
        let loads = loads.clamp(1.0, f64::from(u32::MAX)) as u32;
        if lot.0 > 0.0 { loads } else { 0 }
    }
}

/// A smaller cup than this would not hold a drop.
const LEAST_LOAD: f64 = 0.01;

impl StepNeed {
    /// The amounts for a number of models.
    pub fn for_models(&self, models: u32) -> StepAmounts {
        let reserve = self.scaling.reserve_for(models);
        let lot = Estimate::within(Millilitres(self.scaling.need(models).0 + reserve.0), self.scaling.spread);
        StepAmounts {
            models,
            lot,
            reserve,
            parts: self.portions.iter().map(|portion| lot.times(portion.share)).collect(),
            extras: self.extras.iter().map(|extra| extra.for_models(models)).collect(),
            loads: self.scaling.load.map_or(0, |load| Scaling::loads(lot.likely, Millilitres(load))),
        }
    }
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
    let coat = film.coat(position);
    let touched = touched(film, position, step, bench)?;
    let sum = sum(step, coat, touched, surface, conditions);
    let extras = extra::extras(stock, film, position, &sum, bench);
    if step.mix.parts.is_empty() && extras.is_empty() {
        return None;
    }
    let portions = portions(&step.mix, sum.laying, bench);
    let own = if sum.laying.sprays() { Figure::SpreadSpray } else { Figure::SpreadBrush };
    let lines = if touched.fine { bench.get(Figure::SpreadLines) } else { 1.0 };
    let spread = pooled([surface.spread, bench.get(Figure::SpreadFilm), bench.get(own), lines]);
    let lot = step.together && !matches!(sum.laying, Laying::Can(_));
    let scaling = Scaling {
        first: sum.first().0,
        per_model: sum.per_model().0,
        fixed: sum.lost.0,
        reserve: if lot { bench.get(Figure::LotReserve) } else { 0.0 },
        reserve_least: if lot { bench.get(Figure::LotReserveLeast) } else { 0.0 },
        load: load(sum.laying).map(|figure| bench.get(figure).max(LEAST_LOAD)),
        spread,
        spread_drops: pooled([spread, bench.get(Figure::SpreadDrop)]),
        shares: portions.iter().map(|portion| portion.share).collect(),
        drops: portions.iter().map(|portion| portion.drop.map(|drop| drop.0)).collect(),
    };
    Some(StepNeed { sum, scaling, portions, extras, together: lot })
}

fn sum(step: &Step, coat: Option<&Coat<'_>>, touched: Touched, surface: &ModelSurface, conditions: &Conditions) -> Sum {
    let bench = &conditions.bench;
    let what = coat.map(|coat| coat.what);
    let family = coat.map_or(Family::Water, |coat| coat.cup.family());
    let laying = Laying::of(step, what, family, ModelSize::of(surface.area, bench));
    let film = match coat {
        None => bench.get(Figure::WetWiped),
        Some(coat) if coat.what == What::Decal => bench.get(Figure::WetSoftener),
        Some(coat) => coat.wet.0,
    };
    let (efficiency_alone, efficiency) = laying.efficiency(bench);
    let lost = lost(step, laying).iter().map(|figure| bench.get(*figure)).sum();
    Sum {
        area: surface.area,
        source: surface.source,
        areas: touched.areas,
        zones: touched.zones,
        film: Micrometres(film),
        coats: step.coats,
        laying,
        efficiency,
        efficiency_alone,
        lost: Millilitres(lost),
    }
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
        Laying::Can(_) | Laying::Powder | Laying::Paste => None,
        _ => Some(Figure::PaletteLoad),
    }
}

fn portions(mix: &Mix, laying: Laying, bench: &crate::bench::Bench) -> Vec<Portion> {
    let volumes = mix.parts.iter().map(|part| match mix.measured {
        Measured::Parts => part.amount.as_f64(),
        Measured::Drops => part.amount.as_f64() * part.paint.drop.0,
    });
    let volumes: Vec<f64> = volumes.collect();
    let total: f64 = volumes.iter().sum();
    let in_drops = |kind: Kind| !matches!(kind, Kind::Pigment | Kind::Texture) && !matches!(laying, Laying::Can(_));
    let lines = mix.parts.iter().zip(volumes).zip(drops::weights(mix));
    lines
        .map(|((part, volume), weight)| Portion {
            share: volume / total,
            weight,
            drop: in_drops(part.paint.kind).then_some(part.paint.drop),
            density: density(&part.paint, bench),
        })
        .collect()
}
