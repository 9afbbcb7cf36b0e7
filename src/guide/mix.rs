//! What is in the cup: paints and how much of each.

use std::sync::Arc;

use super::Paint;
use crate::measure::Fraction;
use crate::report::Place;

/// A mix of one or more paints.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Mix {
    /// Its lines, in the author's order; none where the step uses no paint.
    pub parts: Vec<MixPart>,
    /// What the amounts count.
    pub measured: Measured,
}

/// One line of a mix.
#[derive(Debug, Clone, PartialEq)]
pub struct MixPart {
    /// The paint.
    pub paint: Arc<Paint>,
    /// How many parts or drops.
    pub amount: Fraction,
    /// Where the line stands.
    pub place: Place,
}

/// What the amounts of a mix count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Measured {
    /// Parts by volume.
    #[default]
    Parts,
    /// Drops.
    Drops,
}

impl Mix {
    /// Whether more than one product is in it.
    pub fn is_mixed(&self) -> bool {
        self.parts.len() > 1
    }
}
