//! A lot as somebody measures it out: in drops, in marks of a cup, or by volume. Everybody who says how much of what goes
//! into a mix asks here; a page's script does the same from the coefficients in [`Scaling`](super::Scaling).
//!
//! A part is a part by volume: a drop, or so many more of those that are smaller. A lot is a whole number of recipes: as many as the need asks for, where the share
//! `recipe-missing` of one may be missing, and never less than one. From `pour-from` on the same parts are half millilitres,
//! or for more parts than anybody counts tenths of one, unless that would make much more than is needed. Of one product alone
//! only the volume is told then.

use serde::Serialize;

use super::recipe::Recipe;
use crate::measure::Millilitres;

/// What the parts of a lot are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum By {
    /// Drops.
    Drops,
    /// Marks of a measuring cup, of half a millilitre; of a syringe, a tenth, for more parts than anybody counts.
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
    /// One mark.
    pub mark: Millilitres,
    /// So many times the need may a poured lot be.
    pub too_much: f64,
    /// So much of a recipe may be missing.
    pub missing: f64,
}

impl MeasuredOut {
    /// All of it.
    pub fn total(&self) -> Millilitres {
        Millilitres(self.volumes.iter().map(|volume| volume.0).sum())
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

/// As many recipes as a volume asks for, of which the share `missing` may be missing.
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
