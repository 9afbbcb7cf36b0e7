//! Metal, and clears over it, as one sees it near the glint.
//!
//! Diffuse light goes to and fro in a film over white, but a mirror sends it straight back: a clear over metal is
//! passed twice along a short path, and nothing is thrown in again from the skin. Theory alone, not measured; the
//! diffuse form is the other bound.

use super::bands::{self, Bands};
use super::constants::GLINT_PATH;
use super::depths::Depths;
use super::surface::Outer;

/// A metal and the films over it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gleam {
    /// What the bare metal reflects.
    mirror: Bands,
    /// What all films over it throw back by themselves.
    haze: Bands,
    /// How much of the light passes all of them, there and back.
    passed: Bands,
}

impl Gleam {
    /// A bare metal of this reflectance.
    pub fn of(metal: &Outer) -> Self {
        Self { mirror: metal.0, haze: [0.0; bands::COUNT], passed: [1.0; bands::COUNT] }
    }

    /// The metal under one more film.
    #[must_use]
    pub fn under(&self, film: &Depths) -> Self {
        let passed = |band: usize| (-2.0 * GLINT_PATH * (film.absorbed[band] + film.scattered[band])).exp();
        Self {
            mirror: self.mirror,
            haze: bands::each(|band| film.film(band).over(self.haze[band])),
            passed: bands::each(|band| self.passed[band] * passed(band)),
        }
    }

    /// What is seen near the glint.
    pub fn outer(&self) -> Outer {
        Outer(bands::each(|band| self.haze[band] + self.returned(band)))
    }

    /// What is seen of a metal under films that may cover it: in each band the glint as far as the metal sends the
    /// light back, and the diffuse form as far as the films do.
    pub(crate) fn beneath(&self, diffuse: &Outer) -> Outer {
        let glint = self.outer();
        Outer(bands::each(|band| {
            let share = self.returned(band) / glint.0[band].max(1e-12);
            share * glint.0[band] + (1.0 - share) * diffuse.0[band]
        }))
    }

    /// What the metal sends back through the films; with the haze never more than all the light.
    fn returned(&self, band: usize) -> f64 {
        let back = self.passed[band] * self.mirror[band] / (1.0 - self.haze[band] * self.mirror[band]).max(1e-9);
        back.min(1.0 - self.haze[band])
    }
}
