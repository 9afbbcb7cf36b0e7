//! Which bottles to buy: the cheapest set of sizes that covers a need, the fewest bottles among equals.
//!
//! It is a covering knapsack with as many of each size as one likes. Needs and sizes count in hundredths of a
//! millilitre, divided by what all sizes have in common, so that 17 ml and 60 ml make a table of a thousand entries.
//! A large need is first met with the size that gives most for the money: of the others an optimal set never needs
//! as many as that size has units, because among so many some add up to whole bottles of it (the pigeonhole principle).

use num_integer::gcd;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::guide::Bottle;
use crate::measure::{Millilitres, Money};

/// The longest table that is filled: a need beyond it is met in coarser units, which still cover it.
const LONGEST_TABLE: u64 = 50_000;

/// So many sizes of one paint are looked at: those that give most for the money.
const MOST_SIZES: usize = 16;

/// The most that is ever needed, in hundredths of a millilitre: a thousand million litres and more than all models take.
const LARGEST_NEED: f64 = 1e17;

/// So many bottles of one size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pick {
    /// The size.
    pub bottle: Bottle,
    /// How many.
    pub count: u64,
}

/// What one size weighs in the choice: first what it costs (or, where prices are not known, that it is a bottle),
/// then that it is a bottle (or how much is in it).
type Weight = (u128, u128);

/// One size in the units of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Size {
    /// Its position among the sizes that are looked at.
    at: usize,
    /// How much is in it.
    units: u64,
    weight: Weight,
}

/// The cheapest bottles that cover a need, of which only the `usable` share of each is taken out; large ones first.
///
/// Where some sizes have a price, only those are looked at. Where none has one, it is the fewest bottles, and of those
/// the smallest. Nothing is bought where nothing is needed, and nothing can be where no size is known.
pub fn choose(sizes: &[Bottle], need: Millilitres, usable: f64) -> Vec<Pick> {
    let known = looked_at(sizes);
    let need = hundredths(need.0 / usable.max(f64::MIN_POSITIVE));
    let mut picks: Vec<Pick> = counts(&known, need)
        .into_iter()
        .filter_map(|(at, count)| Some(Pick { bottle: known.get(at)?.0, count }))
        .collect();
    picks.sort_by(|a, b| b.bottle.size.0.total_cmp(&a.bottle.size.0));
    picks
}

/// A need in hundredths of a millilitre, rounded up; the thousandth part of one is noise of the calculation.
fn hundredths(need: f64) -> u64 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held between 0 and 1e17")]
    let whole = (need * 100.0 - 0.001).ceil().clamp(0.0, LARGEST_NEED) as u64;
    whole
}

/// The sizes that are worth a look, each with its place in the table's first units.
fn looked_at(sizes: &[Bottle]) -> Vec<(Bottle, Size)> {
    let priced = sizes.iter().any(|bottle| bottle.price.is_some());
    let mut known: Vec<(Bottle, Size)> = sizes
        .iter()
        .filter(|bottle| bottle.price.is_some() == priced)
        .filter_map(|bottle| {
            let units = contents(bottle.size);
            let weight = bottle.price.map_or((1, u128::from(units)), |price| (millionths(price), 1));
            (units > 0).then_some((*bottle, Size { at: 0, units, weight }))
        })
        .collect();
    known.sort_by(|(_, a), (_, b)| by_worth(a, b));
    known.dedup_by(|(_, a), (_, b)| a.units == b.units);
    known.truncate(MOST_SIZES);
    for (at, (_, size)) in known.iter_mut().enumerate() {
        size.at = at;
    }
    known
}

/// What is in a bottle, in whole hundredths of a millilitre.
fn contents(size: Millilitres) -> u64 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held between 0 and 1e12")]
    let whole = (size.0 * 100.0 + 0.001).floor().clamp(0.0, 1e12) as u64;
    whole
}

fn millionths(price: Money) -> u128 {
    (price.0 * Decimal::from(1_000_000)).to_u128().unwrap_or(u128::from(u64::MAX))
}

/// The size that gives most for its weight first; equals by their contents, the larger first.
fn by_worth(a: &Size, b: &Size) -> std::cmp::Ordering {
    let worth = |one: &Size, other: &Size| {
        let times = u128::from(other.units);
        (one.weight.0.saturating_mul(times), one.weight.1.saturating_mul(times))
    };
    worth(a, b).cmp(&worth(b, a)).then(b.units.cmp(&a.units))
}

/// How many of which size, by its position.
fn counts(known: &[(Bottle, Size)], need: u64) -> Vec<(usize, u64)> {
    let sizes: Vec<Size> = known.iter().map(|(_, size)| *size).collect();
    if need == 0 || sizes.is_empty() {
        return Vec::new();
    }
    let alone = sizes.iter().map(|size| vec![(size.at, need.div_ceil(size.units))]);
    let mixed = [mixed(sizes.clone(), need)];
    let weigh = |counts: &Vec<(usize, u64)>| {
        counts.iter().fold((0_u128, 0_u128), |sum, (at, count)| {
            let weight = sizes.get(*at).map_or((u128::MAX, u128::MAX), |size| size.weight);
            let times = u128::from(*count);
            (sum.0.saturating_add(weight.0.saturating_mul(times)), sum.1.saturating_add(weight.1.saturating_mul(times)))
        })
    };
    alone.chain(mixed).min_by_key(weigh).unwrap_or_default()
}

/// The best set of all sizes: whole bottles of the worthiest for the bulk of a large need, a table for the rest.
fn mixed(sizes: Vec<Size>, need: u64) -> Vec<(usize, u64)> {
    let common = sizes.iter().fold(0, |common, size| gcd(common, size.units)).max(1);
    let (mut sizes, mut need) = (in_units(sizes, common), need.div_ceil(common));
    while need > LONGEST_TABLE && turning_point(&sizes) > u128::from(LONGEST_TABLE) {
        let unit = (turning_point(&sizes) / u128::from(LONGEST_TABLE)).isqrt() + 1;
        let unit = u64::try_from(unit).unwrap_or(u64::MAX);
        sizes = in_units(sizes, unit);
        need = need.div_ceil(unit);
    }
    let (Some(best), Ok(rest)) = (sizes.first().copied(), u64::try_from(turning_point(&sizes))) else {
        return Vec::new();
    };
    let bulk = if need > LONGEST_TABLE { need.saturating_sub(rest).div_ceil(best.units) } else { 0 };
    let mut counts = filled(&sizes, need.saturating_sub(bulk.saturating_mul(best.units)));
    if bulk > 0 {
        match counts.iter_mut().find(|(at, _)| *at == best.at) {
            Some((_, count)) => *count += bulk,
            None => counts.push((best.at, bulk)),
        }
    }
    counts
}

/// The sizes in a coarser unit, each rounded down so that a need is still covered; what is smaller than one is left out.
fn in_units(sizes: Vec<Size>, unit: u64) -> Vec<Size> {
    let coarse = sizes.into_iter().map(|size| Size { units: size.units / unit, ..size });
    let mut left: Vec<Size> = coarse.filter(|size| size.units > 0).collect();
    left.sort_by(by_worth);
    left
}

/// From this need on, the worthiest size is part of an optimal set for sure.
fn turning_point(sizes: &[Size]) -> u128 {
    let best = sizes.first().map_or(1, |size| size.units);
    let largest = sizes.iter().map(|size| size.units).max().unwrap_or(1);
    u128::from(best) * u128::from(largest)
}

/// The best set for a small need: for every amount up to it, the best last bottle.
fn filled(sizes: &[Size], need: u64) -> Vec<(usize, u64)> {
    let need = usize::try_from(need).unwrap_or(usize::MAX).min(usize::try_from(LONGEST_TABLE).unwrap_or(usize::MAX));
    let before = |amount: usize, size: &Size| amount.saturating_sub(usize::try_from(size.units).unwrap_or(usize::MAX));
    let mut best: Vec<(Weight, usize)> = Vec::with_capacity(need + 1);
    best.push(((0, 0), 0));
    for amount in 1..=need {
        let with = |(at, size): (usize, &Size)| {
            let (so_far, _) = best.get(before(amount, size)).copied().unwrap_or_default();
            ((so_far.0 + size.weight.0, so_far.1 + size.weight.1), at)
        };
        best.push(sizes.iter().enumerate().map(with).min().unwrap_or_default());
    }
    let mut counts: Vec<(usize, u64)> = sizes.iter().map(|size| (size.at, 0)).collect();
    let mut amount = need;
    while amount > 0 {
        let (_, last) = best.get(amount).copied().unwrap_or_default();
        let (Some(size), Some((_, count))) = (sizes.get(last), counts.get_mut(last)) else { break };
        *count += 1;
        amount = before(amount, size);
    }
    counts.retain(|(_, count)| *count > 0);
    counts
}

#[cfg(test)]
mod tests;
