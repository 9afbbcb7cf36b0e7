//! What is in the cup: pigments by their shares of the wet volume.

use super::contrast;
use super::depths::Depths;
use super::doubt::{Doubt, Glint};
use super::evidence::{Evidence, Uncertainty};
use super::pigment::Pigment;
use super::space::LinearRgb;
use super::surface::Surface;

/// A mix of pigments, colourless ones among them.
#[derive(Debug, Clone, PartialEq)]
pub struct Mixture {
    /// Of one nominal coat of the mix, as wet as it is.
    pub depths: Depths,
    /// The weakest evidence of what is in it. A white counts only where nothing else does: a tint was made with it.
    pub evidence: Option<Evidence>,
    /// What else it may be; `None` where nothing is in doubt.
    pub doubt: Option<Doubt>,
    /// Whether metal flakes make up at least half of its colour.
    pub metallic: bool,
    /// How much of a matt surface's mirror its own surface has: 1 for matt, 0 for gloss.
    pub mirror: f64,
}

impl Mixture {
    /// Mixes pigments by parts of the wet volume, in any measure; their order does not matter.
    ///
    /// Thinner and medium are [`Pigment::COLOURLESS`] parts: they thin the film and do not lighten the colour. Where
    /// the coats that are laid already count the thinning, leave the thinner out. `None` where nothing is in it or an
    /// amount is not a number of at least 0.
    pub fn of(parts: &[(&Pigment, f64)]) -> Option<Self> {
        let all: f64 = parts.iter().map(|(_, amount)| amount).sum();
        let proper = all.is_finite() && all > 0.0 && parts.iter().all(|(_, amount)| *amount >= 0.0);
        if !proper {
            return None;
        }
        let shares = parts.iter().filter(|(_, amount)| *amount > 0.0);
        let doubt = Doubt::mixed(shares.map(|(one, amount)| (&one.depths, one.doubt.as_ref(), amount / all)));
        let (depths, mirror) = (Depths::NONE, 1.0);
        let mut mixture = Self { depths, evidence: None, doubt, metallic: false, mirror };
        let (mut coloured, mut flakes) = (0.0, 0.0);
        let mut of_whites = None;
        let mut mirrored = 0.0;
        for (pigment, amount) in parts.iter().filter(|(_, amount)| *amount > 0.0) {
            mixture.depths = mixture.depths.plus(&pigment.depths.times(amount / all));
            if pigment.evidence.is_none() {
                continue;
            }
            let evidence = if pigment.white { &mut of_whites } else { &mut mixture.evidence };
            *evidence = Evidence::weaker(*evidence, pigment.evidence);
            coloured += amount;
            mirrored += pigment.mirror * amount;
            flakes += if pigment.metallic { *amount } else { 0.0 };
        }
        mixture.evidence = mixture.evidence.or(of_whites);
        mixture.metallic = coloured > 0.0 && 2.0 * flakes >= coloured;
        mixture.mirror = if coloured > 0.0 { mirrored / coloured } else { 1.0 };
        Some(mixture)
    }

    /// Its colour where it covers fully.
    pub fn opaque(&self, surface: Surface) -> LinearRgb {
        surface.mirroring(self.mirror).outer(&self.depths.opaque()).linear_rgb()
    }

    /// How so many nominal coats of it hide; see [`contrast::contrast_ratio`].
    pub fn contrast_ratio(&self, coats: f64) -> f64 {
        contrast::contrast_ratio(&self.depths.times(coats))
    }

    /// Between what that lies, by all that is left open.
    pub fn contrast_between(&self, coats: f64) -> (f64, f64) {
        let ratio = self.contrast_ratio(coats);
        let of_others = self.doubt.iter().flat_map(|doubt| doubt.contrast_ratios(coats));
        of_others.fold((ratio, ratio), |(least, most), other| (least.min(other), most.max(other)))
    }

    /// How far the prediction of its colour may be off where it covers fully; `None` where nothing needed to be known.
    pub fn uncertainty(&self, surface: Surface) -> Option<Uncertainty> {
        self.evidence?;
        Some(self.doubt.as_ref()?.opaque().uncertainty(surface.mirroring(self.mirror), Glint::NONE))
    }
}
