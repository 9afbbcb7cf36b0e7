//! Paints that stand for all that a fit leaves open, drawn by dice.

use std::sync::Arc;

use super::bands;
use super::coarse::CoarseDepths;
use super::constants::{LOG_DEPTH_RANGE, UNSEEN_IS_WIDER};
use super::depths::Depths;
use super::doubt::{ALL, DRAWN, Doubt};
use super::estimate::{self, Fit};
use super::observation::{BrushOut, Observation};
use super::prior::{Prior, SIZE};
use super::surface::Surface;

/// Steps from the likeliest paint to another: where only its own colour and its class hold it, and where swatches do.
const STEPS: (usize, usize) = (2, 3);

/// Paints drawn from what a fit leaves open: each is the likeliest one that would have been found if one had set out
/// from another paint of its sort. `depths` is the likeliest of all, which may have moved since the fit.
pub(crate) fn drawn(
    fit: &Fit,
    (prior, known): (&Prior, &[Observation]),
    surface: Surface,
    paint: (&Depths, &str),
) -> Doubt {
    let (depths, name) = paint;
    let own = OwnSigns::of(name);
    let found = fit.logs(prior);
    let swatches = known.iter().filter(|one| is_brushed(one)).count();
    let wider = wider(swatches);
    let steps = if swatches == 0 { STEPS.0 } else { STEPS.1 };
    let mut drawn = [CoarseDepths::of(depths); ALL];
    for pair in 0..DRAWN / 2 {
        let away: Vec<f64> = (0..prior.count).map(|at| wider * own.sign(pair, at)).collect();
        for (way, sign) in [1.0, -1.0].into_iter().enumerate() {
            let start: Vec<f64> = away.iter().map(|away| sign * away).collect();
            let other = Prior { mean: prior.of(&start), spread: Arc::clone(&prior.spread), count: prior.count };
            let here = fit.standard.iter().zip(&start).map(|(here, start)| here - start).collect();
            let at = 1 + 2 * pair + way;
            let near = estimate::nearly(&other, here, &seen_with(known, at), surface, steps).logs(&other);
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

/// Whether it is a swatch that somebody brushed, and not the paint's own colour.
fn is_brushed(one: &Observation) -> bool {
    matches!(one, Observation::Swatch(out) if out.ground.is_some() || out.with != Depths::NONE)
}

/// How many times further off than a fit leaves open a paint may be of which so many swatches are known.
fn wider(swatches: usize) -> f64 {
    UNSEEN_IS_WIDER.0 + UNSEEN_IS_WIDER.1 * swatches.saturating_sub(1) as f64
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

/// Which way each standard number of a paint goes in each pair that is drawn.
///
/// The numbers are dealt to as many groups as there are pairs; a group turns its sign from pair to pair by a row of
/// [`TURNS`]. The rows are at right angles, so what the pairs show together is the same for every paint of which the same
/// is known; which row a group has, and with which sign, is each paint's own, so that two paints err independently.
struct OwnSigns {
    /// The row of each group, and its sign.
    rows: [(usize, f64); PAIRS],
    /// The sign of each standard number in its group, the same for all paints.
    within: Vec<f64>,
}

/// So many pairs are drawn, one to each side.
const PAIRS: usize = DRAWN / 2;

/// Four rows of signs at right angles (Hadamard).
const TURNS: [[f64; PAIRS]; PAIRS] =
    [[1.0, 1.0, 1.0, 1.0], [1.0, -1.0, 1.0, -1.0], [1.0, 1.0, -1.0, -1.0], [1.0, -1.0, -1.0, 1.0]];

/// The dice for the signs within a group. Of eight that were tried on measured films, the ranges of these held nearest to
/// nine in ten in all groups.
const COMMON: &str = "a";

impl OwnSigns {
    fn of(name: &str) -> Self {
        let mut dice = Dice::of(name);
        let mut order: [usize; PAIRS] = std::array::from_fn(|at| at);
        for at in (1..PAIRS).rev() {
            order.swap(at, dice.below(at + 1));
        }
        let rows = order.map(|row| (row, dice.sign()));
        let mut common = Dice::of(COMMON);
        Self { rows, within: (0..SIZE).map(|_| common.sign()).collect() }
    }

    fn sign(&self, pair: usize, at: usize) -> f64 {
        let (row, sign) = self.rows[at % PAIRS];
        TURNS[row][pair] * sign * self.within.get(at).copied().unwrap_or(1.0)
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
        if self.next() & 1 == 0 { -1.0 } else { 1.0 }
    }

    /// A number below another.
    fn below(&mut self, number: usize) -> usize {
        let all = u64::try_from(number.max(1)).unwrap_or(1);
        usize::try_from(self.next() % all).unwrap_or_default()
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }
}
