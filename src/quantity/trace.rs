//! What is too little to be measured out, told in drops of what is meant: the bench knows how large these are.

use crate::bench::{Bench, Figure};
use crate::guide::Mix;
use crate::measure::Millilitres;

/// Less than this share of a drop is less than a drop, by the likely figure: that may well be off by a factor of two.
const SURELY_NO_DROP: f64 = 0.5;

/// Fewer drops than this are a drop or two, by the upper figure: nobody counts halves.
const A_DROP_OR_TWO: f64 = 2.5;

/// A need whose likely figure is below this is less than a drop of that size.
pub fn less_than_a_drop(drop: Millilitres) -> Millilitres {
    Millilitres(drop.0 * SURELY_NO_DROP)
}

/// A need whose upper figure is below this is a drop or two of that size.
pub fn a_drop_or_two(drop: Millilitres) -> Millilitres {
    Millilitres(drop.0 * A_DROP_OR_TWO)
}

/// The smallest drop of what is in a mix.
pub fn smallest_drop(mix: &Mix, bench: &Bench) -> Millilitres {
    let drops = mix.parts.iter().map(|part| bench.drop(&part.paint));
    drops.min_by(|one, other| one.0.total_cmp(&other.0)).unwrap_or_else(|| ordinary_drop(bench))
}

/// The drop of what the guide has no product for: that of ordinary paint.
pub fn ordinary_drop(bench: &Bench) -> Millilitres {
    Millilitres(bench.get(Figure::DropPaint))
}
