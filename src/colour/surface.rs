//! The skin of a film: part of the light never enters, and part of what comes back is thrown in again.
//!
//! Saunderson, Journal of the Optical Society of America 32 (1942) 727. Films are calculated with the reflectance inside;
//! what one sees is the reflectance outside, and the two are types of their own.

use super::bands::{self, Bands};
use super::cie;
use super::constants::{
    INNER_MIRROR, MOST_OUTER_MIRROR, OUTER_MIRROR_OF_DARKEST, OUTER_MIRROR_OF_SATIN, REFLECTANCE_MARGIN,
    USUAL_OUTER_MIRROR,
};
use super::space::{self, LinearRgb};
use crate::guide::{Paint, Swatch};
use crate::trade::Sheen;

/// What an eye or an instrument sees, 0 to 1 in each band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outer(pub Bands);

impl Outer {
    /// The same reflectance in every band: a grey card.
    pub fn grey(reflectance: f64) -> Self {
        Self([reflectance; bands::COUNT])
    }

    /// Its colour in linear light.
    pub fn linear_rgb(&self) -> LinearRgb {
        cie::linear_rgb(&self.0)
    }

    /// Its relative luminance, 0 to 1.
    pub fn luminance(&self) -> f64 {
        space::luminance(self.linear_rgb())
    }

    /// So much of this beside the rest of another: how a broken coat looks from afar.
    #[must_use]
    pub fn beside(&self, share: f64, other: &Self) -> Self {
        Self(bands::each(|band| share * self.0[band] + (1.0 - share) * other.0[band]))
    }
}

/// What the light under the skin meets, above 0 and below 1 in each band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inner(pub Bands);

/// The two mirrors of a film's skin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// The share of light from outside that is mirrored into the eye or the instrument.
    pub outer_mirror: f64,
    /// The share of light from inside that is thrown back in.
    pub inner_mirror: f64,
}

impl Surface {
    /// The skin of colours from a chart, on which nothing is mirrored into the eye.
    pub const CHART: Self = Self { outer_mirror: 0.0, inner_mirror: INNER_MIRROR };

    /// The skin of a guide's matt paints.
    ///
    /// The darkest colour on file bounds what a surface can mirror; where none is dark enough to tell, it is the usual
    /// one. A gloss paint tells nothing of it.
    pub fn of<'a>(paints: impl Iterator<Item = &'a Paint>) -> Self {
        let mut darkest = f64::INFINITY;
        for paint in paints.filter(|paint| paint.kind.has_colour()) {
            let swatches = paint.swatches.iter().map(|swatch| match swatch {
                Swatch::OverWhite(_, colour) | Swatch::OverBlack(_, colour) | Swatch::Tint { colour, .. } => *colour,
            });
            for colour in swatches.chain(paint.colour) {
                darkest = darkest.min(space::luminance(space::linear(colour)) / mirrored(paint.sheen));
            }
        }
        let bound = OUTER_MIRROR_OF_DARKEST * darkest;
        let outer_mirror = if bound > MOST_OUTER_MIRROR { USUAL_OUTER_MIRROR } else { bound };
        Self { outer_mirror, ..Self::CHART }
    }

    /// The same paints where they shine like this: gloss mirrors nothing into the eye, matt all of it.
    #[must_use]
    pub fn under(self, sheen: Sheen) -> Self {
        self.mirroring(mirrored(sheen))
    }

    /// The same paints where so much of a matt surface's mirror is left.
    #[must_use]
    pub(crate) fn mirroring(self, share: f64) -> Self {
        Self { outer_mirror: self.outer_mirror * share, ..self }
    }

    /// What lies under the skin, from what is seen.
    pub fn inner(self, seen: &Outer) -> Inner {
        Inner(bands::each(|band| self.inner_in(seen.0[band])))
    }

    /// The same in one band.
    pub(crate) fn inner_in(self, seen: f64) -> f64 {
        let entered = (seen - self.outer_mirror) / (1.0 - self.outer_mirror);
        let below = entered / (1.0 - self.inner_mirror + self.inner_mirror * entered);
        below.clamp(REFLECTANCE_MARGIN, 1.0 - REFLECTANCE_MARGIN)
    }

    /// What is seen, from what lies under the skin.
    pub fn outer(self, below: &Inner) -> Outer {
        Outer(bands::each(|band| self.outer_in(below.0[band])))
    }

    /// The same in one band.
    pub(crate) fn outer_in(self, below: f64) -> f64 {
        self.outer_mirror + self.passed() * below / (1.0 - self.inner_mirror * below)
    }

    /// How much what is seen grows with what lies under the skin.
    pub(crate) fn slope(self, below: f64) -> f64 {
        let rest = 1.0 - self.inner_mirror * below;
        self.passed() / (rest * rest)
    }

    /// The share of the light that passes the skin once each way.
    fn passed(self) -> f64 {
        (1.0 - self.outer_mirror) * (1.0 - self.inner_mirror)
    }
}

/// How much of a matt surface's mirror is left under a sheen.
pub(crate) fn mirrored(sheen: Sheen) -> f64 {
    match sheen {
        Sheen::Gloss => 0.0,
        Sheen::Satin => OUTER_MIRROR_OF_SATIN,
        Sheen::Matt | Sheen::Metallic => 1.0,
    }
}
