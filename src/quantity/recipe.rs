//! A mix in small whole numbers of drops, or of marks of a cup.

use num_integer::gcd;

use super::drop_size::{is_the_same, units};
use crate::bench::{Bench, Figure};
use crate::guide::{Measured, Mix};

/// The whole parts of each line of a mix.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recipe {
    /// The parts of each line; at least one of each.
    pub parts: Vec<u32>,
    /// Whether they are near the author's ratio and not the same.
    pub near: bool,
    /// Whether its drops differ in size, and so many of each come to the author's parts.
    pub sized: bool,
}

/// Of something that is next to nothing in a mix, one part to so many.
const MOST: f64 = 240.0;

impl Recipe {
    /// The recipe of a mix in drops: as many of each as the author says, or as its parts are by volume.
    pub(super) fn in_drops(mix: &Mix, bench: &Bench) -> Self {
        let units = units(mix, bench);
        if mix.measured == Measured::Drops || is_the_same(&units) {
            return Self::by_amounts(mix, bench);
        }
        let shares = shares(mix.parts.iter().zip(&units).map(|(part, unit)| part.amount.as_f64() / unit.0));
        match few(&shares, bench) {
            Some(found) => Self { sized: true, ..found },
            None => Self::of(None, &shares, bench),
        }
    }

    /// The recipe of a mix by the author's own figures.
    fn by_amounts(mix: &Mix, bench: &Bench) -> Self {
        let fractions: Vec<(u64, u64)> = mix.parts.iter().map(|part| part.amount.terms()).collect();
        let shares = shares(mix.parts.iter().map(|part| part.amount.as_f64()));
        Self::of(exact(&fractions).as_deref(), &shares, bench)
    }

    /// The recipe of a mix that is poured: by the same parts, or by the volumes of the author's drops.
    pub(super) fn in_marks(mix: &Mix, bench: &Bench) -> Self {
        let drops = mix.parts.iter().map(|part| bench.drop(&part.paint).0);
        let mut different = drops.clone();
        let first = drops.clone().next().unwrap_or_default();
        if mix.measured == Measured::Parts || different.all(|drop| drop.to_bits() == first.to_bits()) {
            return Self::by_amounts(mix, bench);
        }
        let shares = shares(mix.parts.iter().zip(drops).map(|(part, drop)| part.amount.as_f64() * drop));
        few(&shares, bench).unwrap_or_else(|| Self::of(None, &shares, bench))
    }

    fn of(exact: Option<&[u128]>, shares: &[f64], bench: &Bench) -> Self {
        let (small, largest) = (whole(bench, Figure::RecipeSmall), whole(bench, Figure::RecipeLargest));
        let counted = |most: u32| {
            let exact = exact.filter(|parts| parts.iter().sum::<u128>() <= most.into())?;
            let parts: Vec<u32> = exact.iter().filter_map(|part| u32::try_from(*part).ok()).collect();
            Some(Self { parts, near: false, sized: false })
        };
        let near = || near(shares, small, bench.get(Figure::RecipeNear));
        counted(small).or_else(near).or_else(|| counted(largest)).unwrap_or_else(|| {
            let rarest = shares.iter().copied().filter(|share| *share > 0.0).fold(1.0, f64::min);
            let parts = rounded(shares, (1.0 / rarest.max(f64::MIN_POSITIVE)).min(MOST));
            Self { parts, near: true, sized: false }
        })
    }
}

fn shares(amounts: impl Iterator<Item = f64> + Clone) -> Vec<f64> {
    let total: f64 = amounts.clone().sum();
    amounts.map(|amount| if total > 0.0 { amount / total } else { 0.0 }).collect()
}

/// A figure that counts parts.
fn whole(bench: &Bench, figure: Figure) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 1 ..= MOST")]
    let parts = bench.get(figure).clamp(1.0, MOST) as u32;
    parts
}

/// The recipe of shares that are no whole numbers: a small one that is near, or twice as far off, which is still less than two
/// drops of one bottle differ by; else the smallest that is near.
fn few(shares: &[f64], bench: &Bench) -> Option<Recipe> {
    let (small, largest) = (whole(bench, Figure::RecipeSmall), whole(bench, Figure::RecipeLargest));
    let within = bench.get(Figure::RecipeNear);
    [(small, within), (small, 2.0 * within), (largest, within)]
        .into_iter()
        .find_map(|(most, within)| near(shares, most, within))
}

/// The smallest recipe of at most so many parts that gives every line its share to within a share of it.
fn near(shares: &[f64], most: u32, within: f64) -> Option<Recipe> {
    let fits = |parts: &Vec<u32>| {
        let total: f64 = parts.iter().map(|part| f64::from(*part)).sum();
        parts.iter().zip(shares).all(|(part, share)| (f64::from(*part) / total - share).abs() <= within * share)
    };
    (1..=most).map(|total| rounded(shares, f64::from(total))).find(fits).map(|parts| Recipe {
        parts,
        near: true,
        sized: false,
    })
}

/// So many parts shared out; whatever is in the mix at all gets one.
fn rounded(shares: &[f64], total: f64) -> Vec<u32> {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 1 and the total")]
    let parts = |share: &f64| if *share > 0.0 { (share * total).round().max(1.0) as u32 } else { 0 };
    shares.iter().map(parts).collect()
}

/// Fractions brought to one denominator, in lowest terms, as long as that can be counted.
fn exact(fractions: &[(u64, u64)]) -> Option<Vec<u128>> {
    let common = fractions.iter().try_fold(1_u128, |common, (_, under)| {
        let under = u128::from(*under).max(1);
        common.checked_mul(under / gcd(common, under))
    })?;
    let parts = fractions.iter().map(|(over, under)| u128::from(*over).checked_mul(common / u128::from(*under).max(1)));
    let parts: Vec<u128> = parts.collect::<Option<_>>()?;
    let shared = parts.iter().copied().fold(0, gcd).max(1);
    Some(parts.into_iter().map(|part| part / shared).collect())
}
