//! What lies on a model, from the bare ground up, and the colour it shows.

use super::constants::{COATS_OF_A_SKIN, HIDES, SEEN_GLINT, WHITE_CARD};
use super::doubt::{Below, Glint};
use super::evidence::{Evidence, Uncertainty};
use super::gleam::Gleam;
use super::mixture::Mixture;
use super::space::{self, Lab, LinearRgb};
use super::surface::{self, Inner, Outer, Surface};
use super::upsample;
use crate::measure::Colour;
use crate::trade::Sheen;

/// What paint is laid on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    /// What it reflects.
    pub seen: Outer,
    /// Whether it is bright metal.
    pub metallic: bool,
}

impl Ground {
    /// A dull ground of this colour: resin, plastic, wood.
    pub fn of(colour: Colour) -> Self {
        Self { seen: upsample::reflectance(space::linear(colour)), metallic: false }
    }

    /// A bright metal of this colour.
    pub fn metal(colour: Colour) -> Self {
        Self { metallic: true, ..Self::of(colour) }
    }

    /// A grey of this reflectance, as of a card.
    pub fn grey(reflectance: f64) -> Self {
        Self { seen: Outer::grey(reflectance), metallic: false }
    }
}

/// Films on a ground.
#[derive(Debug, Clone, PartialEq)]
pub struct Stack {
    /// The skin of the guide's matt paints.
    paints: Surface,
    /// How much of its mirror the surface has now.
    mirror: f64,
    /// What lies under the skin.
    below: Inner,
    /// What else may lie there.
    doubt: Option<Below>,
    /// The metal in it, if it has one.
    gleam: Option<Gleam>,
    /// Whether something was laid over the metal.
    over_metal: bool,
    evidence: Option<Evidence>,
}

impl Stack {
    /// A bare ground.
    pub fn on(ground: &Ground, paints: Surface) -> Self {
        Self {
            paints,
            mirror: 1.0,
            below: paints.inner(&ground.seen),
            doubt: None,
            gleam: ground.metallic.then(|| Gleam::of(&ground.seen)),
            over_metal: false,
            evidence: None,
        }
    }

    /// With so many nominal coats of a mix on top, in one film; no coat changes nothing.
    #[must_use]
    pub fn lay(&self, mixture: &Mixture, coats: f64) -> Self {
        if coats.is_nan() || coats <= 0.0 {
            return self.clone();
        }
        let coats = coats.min(MOST_DEPTH);
        let film = mixture.depths.times(coats);
        let below = film.over(&self.below);
        let on = (&self.below, self.doubt.as_ref());
        let doubt = Below::under(on, (&mixture.depths, mixture.doubt.as_ref()), coats);
        let covers = mixture.contrast_ratio(coats) >= HIDES;
        let own = 1.0 - (-coats / COATS_OF_A_SKIN).exp();
        let mirror = self.mirror + own * (mixture.mirror - self.mirror);
        let mut stack = Self { mirror, below, doubt, ..self.clone() };
        stack.gleam = match self.gleam {
            _ if mixture.metallic => Some(Gleam::of(&self.paints.mirroring(mixture.mirror).outer(&below))),
            Some(gleam) if !covers => Some(gleam.under(&film)),
            _ => None,
        };
        stack.over_metal = stack.gleam.is_some() && !mixture.metallic;
        stack.rest_on(mixture, covers);
        stack
    }

    /// With a dry brush of a mix over a share of it, 0 to 1: what is seen is the one beside the other.
    #[must_use]
    pub fn drybrush(&self, mixture: &Mixture, coats: f64, share: f64) -> Self {
        if coats.is_nan() || coats <= 0.0 {
            return self.clone();
        }
        self.lay(mixture, coats).beside(share, self)
    }

    /// So much of this, 0 to 1, in small pieces beside the rest of another: what is seen from where they run together.
    #[must_use]
    pub fn beside(&self, share: f64, rest: &Self) -> Self {
        if share.is_nan() || share <= 0.0 {
            return rest.clone();
        }
        let share = share.min(1.0);
        let most = if share >= 0.5 { self } else { rest };
        let mixed = self.outer().beside(share, &rest.outer());
        let diffuse = self.diffuse().beside(share, &rest.diffuse());
        let mirror = share * self.mirror + (1.0 - share) * rest.mirror;
        let skin = self.paints.mirroring(mirror);
        let own = (&self.below, self.doubt.as_ref(), self.skin());
        let other = (&rest.below, rest.doubt.as_ref(), rest.skin());
        let doubt = Below::beside(share, own, other, skin);
        Self {
            mirror,
            doubt,
            below: skin.inner(&diffuse),
            gleam: most.gleam.map(|_| Gleam::of(&mixed)),
            over_metal: self.over_metal || rest.over_metal,
            evidence: Evidence::weaker(rest.evidence, self.evidence),
            ..rest.clone()
        }
    }

    /// Under a clear varnish, which changes only how the surface shines.
    #[must_use]
    pub fn varnish(&self, sheen: Sheen) -> Self {
        Self { mirror: surface::mirrored(sheen), ..self.clone() }
    }

    /// The colour it shows, in linear light.
    pub fn linear_rgb(&self) -> LinearRgb {
        self.outer().linear_rgb()
    }

    /// The colour it shows, as a screen shows it.
    pub fn colour(&self) -> Colour {
        space::shown(self.linear_rgb())
    }

    /// The colour it shows, in Lab, not rounded.
    pub fn lab(&self) -> Lab {
        space::lab(self.linear_rgb())
    }

    /// The other bound where there is metal: its colour in diffuse light, away from the glint.
    pub fn colour_off_glint(&self) -> Option<Colour> {
        self.gleam.map(|_| space::shown(self.diffuse().linear_rgb()))
    }

    /// What the predicted colour rests on; `None` where no paint that needs evidence shows.
    pub fn evidence(&self) -> Option<Evidence> {
        self.evidence
    }

    /// How far the predicted colour may be off.
    pub fn uncertainty(&self) -> Option<Uncertainty> {
        self.evidence?;
        Some(self.doubt.as_ref()?.uncertainty(self.skin(), self.glint()))
    }

    /// Two colours that it may come out as as well, far apart, the darker first; `None` where nothing is in doubt.
    pub fn bounds(&self) -> Option<[Colour; 2]> {
        Some(self.doubt.as_ref()?.bounds(self.skin(), self.glint()).map(space::shown))
    }

    /// How far it has moved from another, in CIEDE2000; of all that it may be, the furthest.
    pub fn moved_from(&self, other: &Self) -> f64 {
        let apart = space::lab_difference(self.lab(), other.lab());
        match (&self.doubt, &other.doubt) {
            (Some(own), Some(from)) => apart.max(own.moved(self.skin(), from, other.skin())),
            _ => apart,
        }
    }

    /// Whether the prediction is theory alone: films over metal, for which nothing is measured.
    pub fn is_theory_alone(&self) -> bool {
        self.over_metal
    }

    /// What is seen; a clear over metal at arm's length, where the glint is a part of what one sees.
    pub fn outer(&self) -> Outer {
        let diffuse = self.diffuse();
        self.gleam.map_or(diffuse, |gleam| gleam.beneath(&diffuse).beside(SEEN_GLINT, &diffuse))
    }

    fn glint(&self) -> Glint {
        self.gleam.map_or(Glint::NONE, |_| Glint::of(self.linear_rgb(), self.diffuse().linear_rgb()))
    }

    fn diffuse(&self) -> Outer {
        self.skin().outer(&self.below)
    }

    fn skin(&self) -> Surface {
        self.paints.mirroring(self.mirror)
    }

    /// A mix that covers leaves nothing else to rest on.
    fn rest_on(&mut self, mixture: &Mixture, covers: bool) {
        self.evidence = if covers { mixture.evidence } else { Evidence::weaker(self.evidence, mixture.evidence) };
    }
}

/// No more nominal coats in one film than this: 20 mm, far beyond what any model bears, and finite.
const MOST_DEPTH: f64 = 1000.0;

impl Mixture {
    /// Its colour in so many coats over white card, as that of what tints is given.
    pub fn over_white(&self, coats: f64, surface: Surface) -> LinearRgb {
        self.on_white(coats, surface).linear_rgb()
    }

    /// How far that may be off; `None` where nothing needed to be known.
    pub fn uncertainty_over_white(&self, coats: f64, surface: Surface) -> Option<Uncertainty> {
        self.on_white(coats, surface).uncertainty()
    }

    fn on_white(&self, coats: f64, surface: Surface) -> Stack {
        Stack::on(&Ground::grey(WHITE_CARD), surface).lay(self, coats)
    }
}
