//! What a drop counts for in a mix. Parts are parts by volume, and not every bottle drips drops of one size: a small drop
//! is counted so much oftener.
//!
//! Drops of one sort of bottle differ by a fifth from one to the next, so two sizes that differ by no more than that, each
//! way, are no two sizes: such a mix is counted by its parts, and each drop of it counts for the same.

use super::estimate::pooled;
use crate::bench::{Bench, Figure};
use crate::guide::{Measured, Mix};
use crate::measure::Millilitres;

/// A smaller drop than this falls from no bottle; it keeps an author's own figure of 0 from asking for endless drops.
const LEAST_DROP: f64 = 1e-4;

/// What one drop of each line of a mix counts for. Where its parts are counted by drops of one size, that is their mean, so
/// that all of them make as much as the drops that they are.
pub(super) fn units(mix: &Mix, bench: &Bench) -> Vec<Millilitres> {
    let own: Vec<f64> = mix.parts.iter().map(|part| bench.drop(&part.paint).0.max(LEAST_DROP)).collect();
    if mix.measured == Measured::Drops || !mix.is_mixed() || !are_of_one_size(&own, bench) {
        return own.into_iter().map(Millilitres).collect();
    }
    let amounts = || mix.parts.iter().map(|part| part.amount.as_f64());
    let all: f64 = amounts().sum();
    let mean = amounts().zip(&own).map(|(amount, drop)| amount * drop).sum::<f64>() / all.max(f64::MIN_POSITIVE);
    own.iter().map(|_| Millilitres((mean.max(LEAST_DROP) * FINE).round() / FINE)).collect()
}

/// Whether a drop of every line counts for the same.
pub(super) fn is_the_same(units: &[Millilitres]) -> bool {
    units.windows(2).all(|pair| pair[0].0.to_bits() == pair[1].0.to_bits())
}

/// Nobody knows a drop finer than to a hundred-thousandth of a millilitre, and a page's script is given no more digits.
const FINE: f64 = 1e5;

/// Whether drops differ by no more than two drops of one sort of bottle may.
fn are_of_one_size(drops: &[f64], bench: &Bench) -> bool {
    let least = drops.iter().copied().fold(f64::INFINITY, f64::min);
    let most = drops.iter().copied().fold(0.0, f64::max);
    let spread = bench.get(Figure::SpreadDrop);
    most <= least * pooled([spread, spread])
}
