//! The colour that an author gives for a paint is taken at its word: where the paint covers, it comes out as given.
//!
//! What the pigments make likely draws a colour in a little. So at the end what the paint absorbs and scatters gives way, as little
//! and as smoothly as can be, until its colour is the one given. Where no film under the guide's skin can show that,
//! because it is darker in a channel than the skin mirrors, the paint is taken to mirror less.

use std::sync::Arc;

use super::constants::{
    BLACKS_WITH_CASTS, BROWN_HUES, CASTS_OF_BLACKS, CASTS_OF_BROWNS, CASTS_WITH_BODY, OWN_MIRROR_OF_DARK, OWN_MIRRORS,
    OWN_REACHED, OWN_SPREAD, OWN_WAVE_OF_BOTH, OWN_WAVES,
};
use super::depths::Depths;
use super::estimate::{self, Fit};
use super::judge;
use super::observation::{BrushOut, Observation};
use super::prior::Prior;
use super::space::{self, LinearRgb};
use super::surface::Surface;
use crate::measure::Colour;

/// Waves of which the change of ln K, or of ln S, is made.
const WAVES: usize = 9;

/// A paint as it is fitted under a surface, changed until its own colour comes out as given; with the fit that it came
/// from, and how much of the surface's mirror is left to it. What else is `known` still counts.
pub(crate) fn as_given(
    own: &BrushOut,
    known: &[Observation],
    surface: Surface,
    fitted: impl Fn(Surface) -> (Prior, Fit),
) -> (Depths, (Prior, Fit), f64) {
    let mut best = None;
    let mut least = f64::INFINITY;
    let most = most_mirror(own.colour, surface);
    for left in std::iter::once(most).chain(OWN_MIRRORS.into_iter().filter(|left| *left < most)) {
        let surface = surface.mirroring(left);
        let fit = fitted(surface);
        let found = nearer(&fit.1.depths, own, known, surface);
        let off = space::difference(space::shown(own.seen(&found, surface)), own.colour);
        if off < least || best.is_none() {
            (best, least) = (Some((found, fit, left)), off);
        }
        if off < OWN_REACHED {
            break;
        }
    }
    best.unwrap_or_else(|| {
        let fit = fitted(surface);
        (fit.1.depths, fit, 1.0)
    })
}

/// How much of a surface's mirror a paint may have at most, by its own colour.
fn most_mirror(colour: Colour, surface: Surface) -> f64 {
    let linear = space::linear(colour);
    let channels = [linear.red, linear.green, linear.blue];
    let (least, most) = channels
        .iter()
        .fold((f64::INFINITY, 0.0), |(least, most): (f64, f64), channel| (least.min(*channel), most.max(*channel)));
    let (below, with_colour) = OWN_MIRROR_OF_DARK;
    if space::lab(linear).l >= below || most <= 0.0 || surface.outer_mirror <= 0.0 {
        return 1.0;
    }
    let colourful = (most - least) / most;
    ((1.0 - with_colour * colourful) * least / surface.outer_mirror).min(1.0)
}

/// A colour as it is held to what pigments make: of a black, without the cast that a step or two of eight bits make. Taken at its
/// word, a black of `#17171a` would tint white violet. What has body is mixed with a black pigment, and may have more of a cast.
pub(crate) fn without_cast(own: &BrushOut, with_body: bool) -> BrushOut {
    let linear = space::linear(own.colour);
    let lab = space::lab(linear);
    let rises = |(from, to): (f64, f64), value: f64| ((value - from) / (to - from)).clamp(0.0, 1.0);
    let is_brown = (BROWN_HUES.0..BROWN_HUES.1).contains(&lab.b.atan2(lab.a).to_degrees());
    let casts = match (is_brown, with_body) {
        (true, _) => CASTS_OF_BROWNS,
        (false, true) => CASTS_WITH_BODY,
        (false, false) => CASTS_OF_BLACKS,
    };
    let kept = rises(casts, lab.a.hypot(lab.b)).max(rises(BLACKS_WITH_CASTS, lab.l));
    let grey = space::luminance(linear);
    let channel = |own: f64| grey + kept * (own - grey);
    let colour = LinearRgb::new(channel(linear.red), channel(linear.green), channel(linear.blue));
    BrushOut { colour: if kept < 1.0 { space::shown(colour) } else { own.colour }, ..own.clone() }
}

/// What the paint absorbs gives way, and where it covers what it scatters, too: then only the one by the other shows. Of a black, whose cast was left
/// out of the fit, what it scatters alone: that makes its colour where it covers, and colours nothing that it is mixed with.
fn nearer(depths: &Depths, own: &BrushOut, known: &[Observation], surface: Surface) -> Depths {
    let mut all = known.to_vec();
    all.push(Observation::Swatch(Box::new(BrushOut { spread: OWN_SPREAD, ..own.clone() })));
    let log = |depth: &f64| depth.max(1e-6).ln();
    let mean = depths.absorbed.iter().chain(&depths.scattered).map(log).collect();
    let is_own = |one: &Observation| matches!(one, Observation::Swatch(out) if out.colour == own.colour);
    let (strength, distance) = OWN_WAVES;
    let (absorbed, scattered) = match (known.iter().any(is_own), own.ground) {
        (false, _) => (0.0, strength),
        (true, None) => (OWN_WAVE_OF_BOTH, strength),
        (true, Some(_)) => (strength, 0.0),
    };
    let none = || vec![0.0; WAVES];
    let absorbed = judge::waves((absorbed, distance), WAVES).into_iter().map(|row| [row, none()].concat());
    let scattered = judge::waves((scattered, distance), WAVES).into_iter().map(|row| [none(), row].concat());
    let spread = Arc::new(absorbed.chain(scattered).collect());
    estimate::likeliest(&Prior { mean, spread, count: 2 * WAVES }, &all, surface).depths
}
