//! One line of a mix, as far as it is measured out.

use crate::measure::Millilitres;

/// A smaller cup than this would not hold a drop.
pub(super) const LEAST_LOAD: f64 = 0.01;

/// One line of a mix.
#[derive(Debug, Clone, PartialEq)]
pub struct Portion {
    /// Its share of the mix by volume, from 0 to 1; the shares add up to 1.
    pub share: f64,
    /// How large its drop is; `None` where it is not measured in drops: powders, pastes, cans.
    pub drop: Option<Millilitres>,
    /// What a drop of it counts for in this mix: about as much as its drop.
    pub unit: Millilitres,
    /// Grams per millilitre.
    pub density: f64,
}
