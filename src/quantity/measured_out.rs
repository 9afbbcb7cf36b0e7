//! A lot as somebody measures it out: in drops, in marks of a cup, or by volume. Everybody who says how much of what goes
//! into a mix asks here; a page's script does the same from the coefficients in [`Scaling`](super::Scaling).
//!
//! A part is a part by volume: a drop, or so many more of those that are smaller. A lot is a whole number of recipes: as many as the need asks for, and never less than one;
//! of drops, the share `recipe-missing` of one may be missing. From `pour-from` on the same parts are half millilitres,
//! or where these make too much of it, or for more parts than anybody counts, tenths of one, unless they too would make much
//! more than is needed. Of one product alone only the volume is told then.

use serde::Serialize;

use super::recipe::Recipe;
use crate::measure::Millilitres;

/// What the parts of a lot are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum By {
    /// Drops.
    Drops,
    /// Marks of a measuring cup, of half a millilitre; of a syringe, a tenth, where these are too coarse or too many.
    Marks,
    /// What can't be counted out, or need not be: powders, pastes, cans, and so much of one product that it is poured.
    Volume,
}

/// A lot, measured out.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredOut {
    /// What its parts are.
    pub by: By,
    /// How many drops or marks of each line; none where it goes by volume.
    pub counts: Vec<u32>,
    /// The parts of one recipe; none where it goes by volume.
    pub parts: Vec<u32>,
    /// How many whole recipes it is.
    pub times: u32,
    /// Whether its parts are near the author's ratio and not the same.
    pub near: bool,
    /// Whether that is because its drops differ in size: so many of each come to the author's parts.
    pub sized: bool,
    /// How much that is of each line.
    pub volumes: Vec<Millilitres>,
}

/// How a step's mix is measured out.
#[derive(Debug, Clone, PartialEq)]
pub struct Measure {
    /// In drops.
    pub drops: Recipe,
    /// In marks of a cup.
    pub marks: Recipe,
    /// From this volume on it is poured.
    pub pour_from: Millilitres,
    /// What a mark may be, the coarsest first.
    pub by_marks: Vec<Millilitres>,
    /// So many times the need may a lot be that is poured by marks for which there are finer ones.
    pub coarse: f64,
    /// So many times the need may a poured lot be at all.
    pub too_much: f64,
    /// So much of a recipe may be missing of what is counted in drops.
    pub missing: f64,
}

impl Measure {
    /// A volume, poured by the coarsest marks that don't make too much of it; never less.
    pub(super) fn poured(&self, volume: Millilitres) -> Option<MeasuredOut> {
        let last = self.by_marks.len().saturating_sub(1);
        let by = |(at, mark): (usize, &Millilitres)| {
            let marks: Vec<Millilitres> = self.marks.parts.iter().map(|_| *mark).collect();
            let out = counted(By::Marks, &self.marks, &marks, (volume, ROUNDING));
            let limit = if at < last { self.coarse.min(self.too_much) } else { self.too_much };
            (out.total().0 <= volume.0 * limit).then_some(out)
        };
        self.by_marks.iter().enumerate().find_map(by)
    }
}

/// What is lost or gained where volumes are multiplied.
const ROUNDING: f64 = 1e-9;

impl MeasuredOut {
    /// All of it.
    pub fn total(&self) -> Millilitres {
        Millilitres(self.volumes.iter().map(|volume| volume.0).sum())
    }

    /// The least of it that keeps its ratio; nothing where it goes by volume.
    pub fn least(&self) -> Millilitres {
        let one = self.total().0 / f64::from(self.times.max(1));
        Millilitres(if self.by == By::Volume { 0.0 } else { one })
    }

    /// What one mark is, where it goes by marks.
    pub fn mark(&self) -> Option<Millilitres> {
        let marks: f64 = self.counts.iter().map(|count| f64::from(*count)).sum();
        (self.by == By::Marks && marks > 0.0).then(|| Millilitres(self.total().0 / marks))
    }

    /// What is to be said of how it is counted out; its word below `mix`: `poured`, `sized` where drops differ in size, `near`
    /// the ratio.
    pub fn how(&self) -> Option<&'static str> {
        match self.by {
            By::Marks => Some("poured"),
            By::Drops if self.sized => Some("sized"),
            By::Drops | By::Volume => self.near.then_some("near"),
        }
    }

    /// How many loads it fills, whole recipes in each where it goes by drops, of which the share `missing` may be missing.
    pub fn loads(&self, load: Millilitres, missing: f64) -> u32 {
        let total = self.total().0;
        if total <= 0.0 {
            return 0;
        }
        match self.by {
            By::Drops => self.times.div_ceil(self.in_load(load, missing)),
            By::Marks | By::Volume => at_least_one((total / load.0.max(f64::MIN_POSITIVE) - 1e-9).ceil()),
        }
    }

    /// How many whole recipes go into a load, at least one.
    pub(super) fn in_load(&self, load: Millilitres, missing: f64) -> u32 {
        let one = self.total().0 / f64::from(self.times.max(1));
        at_least_one((load.0 / one.max(f64::MIN_POSITIVE) + missing).floor())
    }
}

/// As many recipes as a volume asks for, of the last of which the share `missing` may be missing.
pub(super) fn counted(
    by: By,
    recipe: &Recipe,
    units: &[Millilitres],
    (volume, missing): (Millilitres, f64),
) -> MeasuredOut {
    let parts = &recipe.parts;
    let volumes: Vec<Millilitres> =
        parts.iter().zip(units).map(|(part, unit)| Millilitres(f64::from(*part) * unit.0)).collect();
    let (near, sized) = (recipe.near, recipe.sized);
    let one = MeasuredOut { by, counts: parts.clone(), parts: parts.clone(), times: 1, near, sized, volumes };
    let whole = one.total().0.max(f64::MIN_POSITIVE);
    let times = at_least_one((volume.0 / whole - missing).ceil());
    times_over(one, times)
}

pub(super) fn times_over(one: MeasuredOut, times: u32) -> MeasuredOut {
    MeasuredOut {
        counts: one.parts.iter().map(|part| part.saturating_mul(times)).collect(),
        volumes: one.volumes.iter().map(|volume| Millilitres(volume.0 * f64::from(times))).collect(),
        times,
        ..one
    }
}

fn at_least_one(value: f64) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 1 ..= u32::MAX")]
    let whole = value.clamp(1.0, f64::from(u32::MAX)) as u32;
    whole
}
