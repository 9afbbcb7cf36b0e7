//! **Quantity**: how much of everything a step takes, for any number of models, within bounds, and how that came about.
//!
//! The figures are predictions from the [film](crate::film) and the model's surface, and they must be shown as such: with
//! [`Estimate::low`] and [`Estimate::high`], and with the `Sum` they came from. Everything they rest on is in
//! [`crate::bench::FIGURES`] with its trust, and an author can replace each of them under `bench`.
//!
//! # The formula
//!
//! A page's script calculates with the same formula for any number of models `n`, from the coefficients in [`Scaling`].
//! Volumes are in ml, and nothing is rounded before it is shown:
//!
//! ```text
//! on the way   =  n = 0: 0,  else  max(first, per_model · n)
//! without      =  on the way + fixed                    (0 for n = 0)
//! reserve      =  n < 2: 0,  else  max(reserve · without, reserve_least)
//! need         =  without + reserve
//! low, high    =  need / spread, need · spread
//! one          =  marks[k] · Σ in_marks,  or of drops  Σ in_drops[i] · drops[i]
//! times(one)   =  max(1, ⌈need / one − missing⌉);  for marks nothing is missing
//! part i       =  in_drops null or need 0: need · shares[i]
//!                 need ≥ pour_from: times(one) · in_marks[i] · marks[k],  for the first k whose lot is not above
//!                 coarse · need, or of the last k too_much · need
//!                 else  times(one) · in_drops[i] · drops[i]
//! lot          =  Σ part i,  its bounds  max(low, one), max(high, lot):  what is mixed is never less than one recipe
//! ```
//!
//! with, per model, `per_model = cm² · share of areas · share of zones · wet µm · coats · 10⁻⁴ / efficiency`, and by brush
//! from a palette never less than the palette's refills. `first` differs from it where one model alone is harder to hit
//! than one in a row (airbrush); `reserve` is not 0 where a step is done together from one lot. A part is a part by
//! volume, however much is mixed: drops of one size, so many more of smaller ones, or a mark of a cup, or of a syringe where a
//! recipe has many ([`MeasuredOut`]).
//!
//! A pot is measured out the same way for what all steps take of it, as each is measured out, and nothing of that may be
//! missing ([`PotScaling`]):
//!
//! ```text
//! taken        =  Σ what the steps take
//! reserve      =  one lot for n > 1 models: max(reserve · taken, reserve_least),  else  0
//! times(one)   =  max(1, ⌈(taken + reserve) / one⌉)
//! ```
//!
//! What the program decides where the trade leaves it open:
//! - what is left in cup and needle, and on the wall of the mixing cup, is lost once for every lot that is mixed, not
//!   for every filling of the cup, because a cup is filled up again before it is empty;
//! - airbrush steps that follow each other ask for a change of colour; the last of them asks for the long flush;
//! - a can's millilitres count all that is in it, propellant too, because that is how a can is sold.

mod checks;
mod counting;
mod density;
mod drop_size;
mod estimate;
mod extra;
mod laying;
mod measured_out;
mod need;
mod portion;
mod pot;
mod reach;
mod recipe;
mod sum;
mod surface;
mod trace;
mod wet;

pub use checks::{CHECKS, check};
pub use counting::Counting;
pub use density::density;
pub use estimate::Estimate;
pub use extra::{Extra, Purpose};
pub use laying::{Laying, ModelSize};
pub use measured_out::{By, MeasuredOut};
pub use need::{Scaling, StepAmounts, StepNeed, step_need};
pub use pot::{PotNeed, PotScaling, PotUse};
pub use recipe::Recipe;
pub use surface::{ModelSurface, SurfaceSource};
pub use trace::{a_drop_or_two, less_than_a_drop, ordinary_drop, smallest_drop};

use crate::film::{Conditions, Film};
use crate::guide::{Scheme, Stock};

/// What every step of a scheme needs, in the order of its steps; `None` for a step that uses no product, and for all
/// of them where the model's surface is not known.
///
/// `film` must have been walked in the order of the scheme's files.
pub fn scheme_needs(
    stock: &Stock<'_>,
    film: &Film<'_>,
    surface: Option<&ModelSurface>,
    conditions: &Conditions,
) -> Vec<Option<StepNeed>> {
    let scheme: &Scheme = film.scheme();
    (0..scheme.steps.len()).map(|position| step_need(stock, film, position, surface?, conditions)).collect()
}

#[cfg(test)]
mod tasks;
#[cfg(test)]
mod vectors;
