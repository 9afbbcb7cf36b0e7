//! **Nearest**: which other paint comes nearest to one, what changes with it, and which two mix to it.
//!
//! Colours are compared by CIEDE2000, and only where a comparison means something: among products of one [`sort`] (paint
//! with paint, metal with metal, clear with clear) that are used alike: their hiding lies within one class, and a spray
//! can takes the place of a spray can alone. What is further off than [`FARTHEST`] is not proposed. A paint is known by its own
//! colour, fully covered; what tints by some coats over white. Where the author gives swatches in place of a colour, the
//! colour that they predict is taken. What has no colour (varnish, thinner, glue) is compared by what it does.
//!
//! - [`Rack`] is the paints of a guide, laid out so that one finds the nearest without looking at all of them.
//! - [`Wanted`] is what is looked for: something in the place of a paint, or a colour.
//! - [`Near`] is a paint with how near it comes ([`Alike`]) and what a painter must mind ([`Change`]).
//! - [`Blend`] is a mix of two paints in small whole parts; inks and clears go into mixes of paint.
//! - [`ranks`] says which of them come nearest as far as that can be told: every distance has an error ([`Apart`]).
//! - [`substitutes`] answers the common question in one call: what do I buy in the place of this one?
//!
//! A paint that has left the market is never proposed.

mod apart;
mod blend;
mod change;
mod guess;
mod looks;
mod near;
mod rack;
mod wanted;

use std::sync::Arc;

pub use apart::{Apart, Look, ranks};
pub use blend::Blend;
pub use change::{Aspect, Change, Fact, changes};
pub use looks::sort;
pub use near::{Alike, FARTHEST, Near};
pub use rack::Rack;
pub use wanted::Wanted;

use crate::guide::Paint;

/// What can be bought in the place of a paint, the nearest first, at most `most` of them; see [`Rack::substitutes`].
///
/// Whoever asks for many paints of one guide makes one [`Rack`] and asks that.
pub fn substitutes(paint: &Paint, paints: &[Arc<Paint>], most: usize) -> Vec<Near> {
    let rack = Rack::of(paints);
    rack.substitutes(&Wanted::in_place_of(paint, rack.look(paint)), most)
}
