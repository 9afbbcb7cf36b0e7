//! Paints that stand for all that a fit leaves open, drawn by dice.

use super::bands;
use super::coarse::CoarseDepths;
use super::constants::{LOG_DEPTH_RANGE, UNSEEN_IS_WIDER};
use super::depths::Depths;
use super::doubt::{ALL, DRAWN, Doubt};
use super::estimate::{self, Fit};
use super::observation::{BrushOut, Observation};
use super::prior::{Prior, SIZE};
use super::surface::Surface;

/// Steps from the likeliest paint to another.
const STEPS: usize = 3;

/// Paints drawn from what a fit leaves open: each is the likeliest one that would have been found if one had set out
/// from another paint of its sort. `depths` is the likeliest of all, which may have moved since the fit.
pub(crate) fn drawn(
    fit: &Fit,
    (prior, known): (&Prior, &[Observation]),
    surface: Surface,
    paint: (&Depths, &str),
) -> Doubt {
    let (depths, name) = paint;
    let mut dice = Dice::of(name);
    let found = fit.logs(prior);
    let wider = wider(known);
    let mut drawn = [CoarseDepths::of(depths); ALL];
    for pair in 0..DRAWN / 2 {
        let away: Vec<f64> = (0..prior.count).map(|_| wider * dice.sign()).collect();
        for (way, sign) in [1.0, -1.0].into_iter().enumerate() {
            let start: Vec<f64> = away.iter().map(|away| sign * away).collect();
            let mean = (0..SIZE).map(|at| prior.at(at, &start)).collect();
            let other = Prior { mean, spread: prior.spread.clone(), count: prior.count };
            let here = fit.standard.iter().zip(&start).map(|(here, start)| here - start).collect();
            let at = 1 + 2 * pair + way;
            let near = estimate::nearly(&other, here, &seen_with(known, at), surface, STEPS).logs(&other);
            let logs: Vec<f64> = near.iter().zip(&found).map(|(near, found)| near - found).collect();
            drawn[at] = CoarseDepths::of(&moved(depths, &logs));
        }
    }
    Doubt::of(&drawn)
}

/// What is known, as it would be with one of the whites that a tint may have been made with: the paint that is drawn with a
/// weak white is weak too, so that both together show the tint that was seen.
fn seen_with(known: &[Observation], at: usize) -> Vec<Observation> {
    let with = |one: &Observation| match one {
        Observation::Swatch(out) => match &out.with_doubt {
            Some(doubt) => {
                Observation::Swatch(Box::new(BrushOut { with: doubt.moved(at, &out.with), ..BrushOut::clone(out) }))
            }
            None => one.clone(),
        },
        _ => one.clone(),
    };
    known.iter().map(with).collect()
}

/// How many times further off than a fit leaves open a paint may be of which this is known.
fn wider(known: &[Observation]) -> f64 {
    let brushed = |out: &BrushOut| out.ground.is_some() || out.with != Depths::NONE;
    let is_brushed = |one: &&Observation| matches!(one, Observation::Swatch(out) if brushed(out));
    let swatches = known.iter().filter(is_brushed).skip(1).count();
    UNSEEN_IS_WIDER.0 + UNSEEN_IS_WIDER.1 * swatches as f64
}

/// A paint's depths, moved in their logarithms.
fn moved(depths: &Depths, logs: &[f64]) -> Depths {
    let (least, most) = LOG_DEPTH_RANGE;
    let depth = |depth: f64, log: f64| (depth.max(1e-6).ln() + log).clamp(least, most).exp();
    Depths {
        absorbed: bands::each(|band| depth(depths.absorbed[band], logs[band])),
        scattered: bands::each(|band| depth(depths.scattered[band], logs[bands::COUNT + band])),
    }
}

/// Dice that fall alike for the same name (`SplitMix64` on a hash by Fowler, Noll and Vo).
struct Dice(u64);

impl Dice {
    fn of(name: &str) -> Self {
        Self(
            name.bytes()
                .fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)),
        )
    }

    fn sign(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        if (mixed ^ (mixed >> 31)) & 1 == 0 { -1.0 } else { 1.0 }
    }
}
