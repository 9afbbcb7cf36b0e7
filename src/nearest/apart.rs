//! The colour that a paint is known by, and how far two lie apart as far as that can be told.

use crate::colour::space::{self, Lab};
use crate::colour::{JUST_SEEN, Uncertainty};
use crate::measure::Colour;

/// The one colour that a paint is known by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// The colour.
    pub lab: Lab,
    /// How far it may be off.
    pub off: Uncertainty,
}

impl Look {
    /// That of a paint of which somebody states the colour.
    pub fn stated(colour: Colour) -> Self {
        Self { lab: space::lab(space::linear(colour)), off: Uncertainty::STATED }
    }

    /// A colour that is meant exactly.
    pub fn exact(colour: Colour) -> Self {
        Self { off: Uncertainty::NONE, ..Self::stated(colour) }
    }

    /// How far another one lies from it.
    pub(super) fn apart(&self, other: &Self) -> Apart {
        Apart { delta_e: space::lab_difference(self.lab, other.lab), off: self.off.between(other.off) }
    }
}

/// How far two colours lie apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Apart {
    /// As they are known, in CIEDE2000.
    pub delta_e: f64,
    /// How far that may be off.
    pub off: Uncertainty,
}

impl Apart {
    /// Whether this one is nearer than another for all that is known: the two differ by more than nine in ten errors.
    pub fn is_surely_nearer(&self, other: &Self) -> bool {
        other.delta_e - self.delta_e > self.off.nine_in_ten.hypot(other.off.nine_in_ten)
    }

    /// Whether the colours are known so well that what nobody could see is known of them: both are stated.
    pub(super) fn is_fine(&self) -> bool {
        let stated = Uncertainty::STATED;
        self.off.median < JUST_SEEN || self.off.median <= stated.between(stated).median
    }
}

/// The rank of each: 1 and one more for every other that is surely nearer. What can't be told apart has the same rank.
pub fn ranks(all: &[Option<Apart>]) -> Vec<usize> {
    let nearer = |one: &Apart| all.iter().flatten().filter(|other| other.is_surely_nearer(one)).count();
    all.iter().map(|one| 1 + one.as_ref().map_or(0, nearer)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_closer_together_than_it_is_known_has_one_rank() {
        let apart =
            |delta_e: f64, off: f64| Some(Apart { delta_e, off: Uncertainty { median: off / 2.0, nine_in_ten: off } });
        assert_eq!(ranks(&[apart(1.0, 2.0), apart(2.0, 2.0), apart(6.0, 2.0), apart(7.0, 20.0)]), [1, 1, 3, 1]);
        assert_eq!(ranks(&[None, None]), [1, 1]);
    }
}
