//! What a yellow that one sees through absorbs: nearly all of the blue.
//!
//! A class tells of hiding and not of how strongly a paint tints. What is light, bright and hides little has no white in it; so it is
//! one strong pigment, and its blue, which is next to nothing where it covers, is absorbed and not scattered. Read by its class alone
//! such a paint scattered blue as a strong yellow does, and its mixes with black, blue and brown turned grey and blue. What hides
//! well may be yellow with white in it, and is left to what measured paints make likely.

use super::bands;
use super::constants::{CLEAN_BANDS, CLEAN_CHROMA, CLEAN_HUES, CLEAN_INK, CLEAN_RATIO, CLEAN_SCATTER, CLEAN_SPREAD};
use super::depths::Depths;
use super::space;
use crate::guide::Paint;
use crate::measure::Colour;
use crate::trade::{Hiding, Kind};

/// What is held of the blue that a coat absorbs: the mean of its logarithm over the bands of blue, at the least.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clean {
    /// Whether it is held against what those bands scatter; otherwise it is that of an ordinary coat.
    by_scatter: bool,
    /// The least of the mean.
    pub(crate) least: f64,
    /// Its standard deviation.
    pub(crate) spread: f64,
}

impl Clean {
    /// What is held of a paint, and of an ink, that is known by a colour and a class alone.
    pub(crate) fn of_paint(paint: &Paint) -> Option<Self> {
        let share = share(paint.colour?, paint.hiding)?;
        let (by_scatter, least) = if paint.kind == Kind::Ink { (false, CLEAN_INK) } else { (true, CLEAN_RATIO) };
        paint.pigments.is_empty().then(|| Self { by_scatter, least: least.ln(), spread: CLEAN_SPREAD / share })
    }

    /// By how much a class means less ln S of such a paint: it tells how a paint hides, and where it absorbs it does not scatter.
    pub(crate) fn less_scatter(paint: &Paint) -> f64 {
        let share = paint.colour.and_then(|colour| share(colour, paint.hiding));
        if paint.pigments.is_empty() { CLEAN_SCATTER * share.unwrap_or_default() } else { 0.0 }
    }

    /// The mean of a film.
    pub(crate) fn of(self, film: &Depths) -> f64 {
        let log = |band: usize| {
            let scattered = if self.by_scatter { film.scattered[band].max(1e-6) } else { 1.0 };
            (film.absorbed[band].max(1e-6) / scattered).ln()
        };
        bands::each(|band| Self::slope(band) * log(band)).iter().sum()
    }

    /// How much a band counts in it.
    pub(crate) fn slope(band: usize) -> f64 {
        let (from, to) = CLEAN_BANDS;
        if (from..to).contains(&band) { 1.0 / (to - from) as f64 } else { 0.0 }
    }

    /// How much what a band scatters counts in it.
    pub(crate) fn slope_by_scattered(self, band: usize) -> f64 {
        if self.by_scatter { -Self::slope(band) } else { 0.0 }
    }
}

/// How clearly a colour and a class are those of a yellow that one sees through, from 0 to 1; `None` where not at all.
fn share(colour: Colour, hiding: Hiding) -> Option<f64> {
    let lab = space::lab(space::linear(colour));
    let hue = lab.b.atan2(lab.a).to_degrees();
    let rises = |(from, to): (f64, f64), value: f64| ((value - from) / (to - from)).clamp(0.0, 1.0);
    let (warm, green) = CLEAN_HUES;
    let share = rises(CLEAN_CHROMA, lab.a.hypot(lab.b)) * rises(warm, hue) * (1.0 - rises(green, hue));
    let seen_through = matches!(hiding, Hiding::SemiTransparent | Hiding::Transparent);
    (seen_through && share > 0.0).then_some(share)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_bright_yellow_that_is_seen_through_is_held_to_be_clean() {
        let of = |colour: [u8; 3], hiding: Hiding| share(Colour(colour), hiding);
        let (through, hides) = (Hiding::SemiTransparent, Hiding::SemiOpaque);
        assert_eq!(of([0xf2, 0xc4, 0x18], through), Some(1.0));
        for (colour, hiding) in [
            ([0xf2, 0xc4, 0x18], hides),
            ([0xd6, 0xc6, 0xa0], through),
            ([0xe0, 0x70, 0x1c], through),
            ([0xb0, 0x1c, 0x22], through),
            ([0x1f, 0x3f, 0x8f], through),
            ([0x2f, 0x7a, 0x36], through),
        ] {
            assert_eq!(of(colour, hiding), None, "{colour:x?} {hiding}");
        }
        let between = of([0xe8, 0x98, 0x20], through).unwrap();
        assert!((0.05..0.95).contains(&between), "a yellow orange, a little: {between}");
    }
}
