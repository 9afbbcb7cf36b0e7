//! Drops: how many of each line make a volume, so that the ratio comes out as near as whole drops allow.

use super::need::Portion;
use crate::guide::{Measured, Mix, MixPart};
use crate::measure::Millilitres;

/// Whole drops of each line of a mix.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dropped {
    /// The drops, in the order of the lines.
    pub counts: Vec<u32>,
}

/// Under so many drops in all, one drop more or less is more than 15 % of the mix.
const FEW: u64 = 6;

impl Dropped {
    /// All drops together.
    pub fn total(&self) -> u64 {
        self.counts.iter().map(|count| u64::from(*count)).sum()
    }

    /// Whether there are so few that one drop more or less is another mix, or that a line gets none at all.
    pub fn too_few(&self) -> bool {
        self.total() < FEW || self.counts.contains(&0)
    }

    /// How much so many drops are of each line.
    pub fn volumes<'a>(&'a self, portions: &'a [Portion]) -> impl Iterator<Item = Millilitres> + 'a {
        let drop = |portion: &Portion| portion.drop.unwrap_or_default().0;
        self.counts.iter().zip(portions).map(move |(count, portion)| Millilitres(f64::from(*count) * drop(portion)))
    }
}

/// The drops of each line that make a volume of the mix; `None` where a line is not measured in drops.
///
/// The number of all drops is the volume's, rounded to the nearest; it is shared out by largest remainders (Hamilton's
/// method), so each line is within one drop of its exact share and all of them add up.
pub fn drops(portions: &[Portion], volume: Millilitres) -> Option<Dropped> {
    let ideal = |portion: &Portion| Some(volume.0 * portion.share / portion.drop?.0.max(f64::MIN_POSITIVE));
    let total = portions.iter().map(ideal).sum::<Option<f64>>().filter(|_| !portions.is_empty())?;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 0 ..= u32::MAX")]
    let total = total.round().clamp(0.0, f64::from(u32::MAX)) as u32;
    let weights: Vec<u128> = portions.iter().map(|portion| portion.weight).collect();
    Some(Dropped { counts: share_out(total, &weights) })
}

/// With so many drops in each line, one more or less of a line moves its share by at most a tenth.
const SURE: u32 = 5;

/// A recipe of more drops than this is not mixed whole for the sake of its ratio.
const LARGEST_RECIPE: u128 = 24;

/// The drops that somebody would count out for a volume: where it is so little that rounding would make another mix of
/// it, whole recipes, or as many drops as give each line one. Never less than the volume needs, to the nearest drop.
pub fn workable(portions: &[Portion], volume: Millilitres) -> Option<Dropped> {
    let near = drops(portions, volume)?;
    if near.counts.iter().all(|count| *count >= SURE) {
        return Some(near);
    }
    let weights: Vec<u128> = portions.iter().map(|portion| portion.weight).collect();
    let divisor = weights.iter().copied().fold(0, greatest_common_divisor).max(1);
    let recipe = weights.iter().sum::<u128>() / divisor;
    let wanted = u128::from(near.total()).max(1);
    let total = if recipe <= LARGEST_RECIPE {
        wanted.next_multiple_of(recipe.max(1))
    } else {
        let rarest = weights.iter().copied().filter(|weight| *weight > 0).min().unwrap_or(1) / divisor;
        wanted.max(recipe.div_ceil(rarest.max(1))).max(FEW.into())
    };
    Some(Dropped { counts: share_out(u32::try_from(total).unwrap_or(u32::MAX), &weights) })
}

/// Shares a whole number out by weights that add up to less than 2⁹⁰: the whole parts first, then one more to the
/// largest remainders, of equal ones to the earlier.
pub fn share_out(total: u32, weights: &[u128]) -> Vec<u32> {
    let sum = weights.iter().sum::<u128>().max(1);
    let exact = weights.iter().map(|weight| u128::from(total) * weight);
    let mut shares: Vec<(u32, u128)> =
        exact.map(|exact| (u32::try_from(exact / sum).unwrap_or(u32::MAX), exact % sum)).collect();
    let given: u64 = shares.iter().map(|(whole, _)| u64::from(*whole)).sum();
    let left = usize::try_from(u64::from(total).saturating_sub(given)).unwrap_or_default();
    let mut order: Vec<usize> = (0..shares.len()).collect();
    order.sort_by_key(|at| std::cmp::Reverse(shares.get(*at).map(|(_, rest)| *rest)));
    for at in order.into_iter().take(left) {
        if let Some((whole, _)) = shares.get_mut(at) {
            *whole = whole.saturating_add(1);
        }
    }
    shares.into_iter().map(|(whole, _)| whole).collect()
}

/// The weights by which drops are shared out among the lines of a mix: the author's fractions over the sizes of the
/// drops, brought to one denominator. They stay exact as long as that denominator fits; beyond it they are right to
/// twelve digits.
pub(super) fn weights(mix: &Mix) -> Vec<u128> {
    let fractions: Vec<(u128, u128)> = mix.parts.iter().map(|part| fraction(part, mix.measured)).collect();
    exact(&fractions).unwrap_or_else(|| rounded(&fractions))
}

/// How many drops a line has, up to a factor that all lines share.
fn fraction(part: &MixPart, measured: Measured) -> (u128, u128) {
    let (over, under) = part.amount.terms();
    let nanolitres = match measured {
        Measured::Drops => 1,
        Measured::Parts => nanolitres(part.paint.drop),
    };
    (u128::from(over), u128::from(under).saturating_mul(nanolitres).max(1))
}

fn nanolitres(volume: Millilitres) -> u128 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 1 ..= 1e15")]
    let nanolitres = (volume.0 * 1e6).round().clamp(1.0, 1e15) as u128;
    nanolitres
}

/// Weights on a common denominator, if they are small enough to be multiplied by any number of drops.
fn exact(fractions: &[(u128, u128)]) -> Option<Vec<u128>> {
    let common = fractions.iter().try_fold(1_u128, |common, (_, under)| {
        let shared = greatest_common_divisor(common, *under);
        common.checked_mul(under / shared)
    })?;
    let weights: Vec<u128> =
        fractions.iter().map(|(over, under)| over.checked_mul(common / under)).collect::<Option<_>>()?;
    let least = weights.iter().copied().reduce(greatest_common_divisor).filter(|least| *least > 0)?;
    let weights: Vec<u128> = weights.into_iter().map(|weight| weight / least).collect();
    weights.iter().all(|weight| *weight < LARGEST_WEIGHT).then_some(weights)
}

/// Eight of them are below 2⁹⁰, and such a sum times any number of drops fits into 128 bits.
const LARGEST_WEIGHT: u128 = 1 << 87;

fn rounded(fractions: &[(u128, u128)]) -> Vec<u128> {
    let values: Vec<f64> = fractions.iter().map(|(over, under)| *over as f64 / *under as f64).collect();
    let largest = values.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 1e12")]
    let weight = |value: f64| (value / largest * 1e12).round() as u128;
    values.into_iter().map(weight).collect()
}

fn greatest_common_divisor(one: u128, other: u128) -> u128 {
    let (mut larger, mut smaller) = (one, other);
    while smaller > 0 {
        (larger, smaller) = (smaller, larger % smaller);
    }
    larger
}
