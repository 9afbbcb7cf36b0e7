//! What one model takes of a mix, as its factors.

use super::laying::Laying;
use super::surface::SurfaceSource;
use crate::bench::Micrometres;
use crate::measure::{Millilitres, SquareCentimetres};

/// The factors of what one model takes: their product is [`Sum::per_model`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sum {
    /// The surface of one model, or of its base where the step is about the base alone.
    pub area: SquareCentimetres,
    /// How much of that is the base.
    pub base: SquareCentimetres,
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
    /// How often the surface is gone over with one product after the other, where they are not mixed; else 1.
    pub rounds: f64,
    /// How it is laid.
    pub laying: Laying,
    /// The share that reaches the model, where several are painted.
    pub efficiency: f64,
    /// The share that reaches the model, where one alone is painted.
    pub efficiency_alone: f64,
    /// What one model takes at least, because paint on a palette dries and is refilled.
    pub refilled: Millilitres,
    /// What is lost with the lot: in cup and needle, on the wall of the mixing cup.
    pub lost: Millilitres,
}

impl Sum {
    /// The share that reaches a model, of so many.
    pub fn efficiency_for(&self, models: u32) -> f64 {
        if models < 2 { self.efficiency_alone } else { self.efficiency }
    }

    /// What a model takes of the mix, of so many: what a list for so many is added up from.
    pub fn each_of(&self, models: u32) -> Millilitres {
        if models < 2 { self.first() } else { self.per_model() }
    }

    /// What each of several models takes of the mix.
    pub fn per_model(&self) -> Millilitres {
        Millilitres((self.on_model().0 / self.efficiency).max(self.refilled.0))
    }

    /// What a single model takes of the mix.
    pub fn first(&self) -> Millilitres {
        Millilitres((self.on_model().0 / self.efficiency_alone).max(self.refilled.0))
    }

    /// What lies wet on one model: 1 cm² × 1 µm is a ten-thousandth of a millilitre.
    pub fn on_model(&self) -> Millilitres {
        Millilitres(self.area.0 * self.areas * self.zones * self.film.0 * f64::from(self.coats) * self.rounds * 1e-4)
    }
}
