//! How well a film hides: the contrast ratio of ISO 6504-3, luminance over black by luminance over white.

use super::constants::{BLACK_CARD, CLASS_SPREAD, CLEAR_RATIO, CLEAR_SPREAD, WHITE_CARD};
use super::depths::Depths;
use super::surface::{Inner, Outer, Surface};
use crate::trade::Hiding;

/// The black card under this skin.
pub fn black_card(surface: Surface) -> Inner {
    surface.inner(&Outer::grey(BLACK_CARD))
}

/// The white card under this skin.
pub fn white_card(surface: Surface) -> Inner {
    surface.inner(&Outer::grey(WHITE_CARD))
}

/// The contrast ratio of a film, from 0.02 for nothing to 1 for one that hides everything.
///
/// A matter of the film alone: nothing is mirrored off the surface.
pub fn contrast_ratio(film: &Depths) -> f64 {
    let luminance = |card: Inner| Surface::CHART.outer(&film.over(&card)).luminance();
    luminance(black_card(Surface::CHART)) / luminance(white_card(Surface::CHART)).max(1e-9)
}

/// What is held of the contrast ratio of one nominal coat before it is measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cover {
    /// The contrast ratio.
    pub ratio: f64,
    /// The standard deviation of its logit.
    pub spread: f64,
}

impl Cover {
    /// A tinted clear hardly scatters: an estimate.
    pub const CLEAR: Self = Self { ratio: CLEAR_RATIO, spread: CLEAR_SPREAD };

    /// What a hiding class stands for: an estimate, makers' classes differ widely.
    pub fn of_class(hiding: Hiding) -> Self {
        let ratio = match hiding {
            Hiding::Opaque => 0.80,
            Hiding::SemiOpaque => 0.65,
            Hiding::SemiTransparent => 0.45,
            Hiding::Transparent => 0.25,
        };
        Self { ratio, spread: CLASS_SPREAD }
    }
}

/// The hiding class whose contrast ratio is the nearest, by the logit in which classes are held.
pub fn class_of(ratio: f64) -> Hiding {
    let logit = |ratio: f64| (ratio / (1.0 - ratio)).ln();
    let ratio = logit(ratio.clamp(1e-6, 1.0 - 1e-6));
    let off = |class: Hiding| (logit(Cover::of_class(class).ratio) - ratio).abs();
    let nearer = |near: Hiding, class: &Hiding| if off(*class) < off(near) { *class } else { near };
    Hiding::ALL.iter().fold(Hiding::Opaque, nearer)
}
