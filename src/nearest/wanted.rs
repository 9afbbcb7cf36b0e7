//! What is looked for: a paint, or a colour alone.

use super::looks::{hides_alike, sort};
use crate::colour::space::{self, Lab};
use crate::colour::{JUST_SEEN, Uncertainty};
use crate::guide::Paint;
use crate::measure::Colour;
use crate::trade::{Hiding, Kind};

/// The one colour that a paint is known by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// The colour.
    pub lab: Lab,
    /// How far it may be off.
    pub off: Uncertainty,
}

/// What is looked for.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// The paint, where it is one.
    pub paint: Option<&'a Paint>,
    /// The sort that is looked among.
    pub sort: Kind,
    /// The colour; none for what is known by what it does.
    pub look: Option<Look>,
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

impl<'a> Wanted<'a> {
    /// Something in the place of a paint.
    pub fn in_place_of(paint: &'a Paint, look: Option<Look>) -> Self {
        Self { paint: Some(paint), sort: sort(paint), look }
    }

    /// A paint of a sort that has this colour.
    pub fn of_colour(colour: Colour, sort: Kind) -> Self {
        Self { paint: None, sort, look: Some(Look::exact(colour)) }
    }

    /// Whether something that covers so well would do.
    pub(super) fn hides(&self, hiding: Hiding) -> bool {
        self.paint.is_none_or(|paint| hides_alike(paint.hiding, hiding))
    }

    /// Whether another one is used as it is: it covers about as well, and comes out of a can if that does.
    pub(super) fn is_used_like(&self, other: &Paint) -> bool {
        self.hides(other.hiding)
            && self.paint.is_none_or(|paint| !is_same(paint, other) && paint.is_pressurised() == other.is_pressurised())
    }
}

/// Whether two entries are one product; two guides may have it each.
pub(super) fn is_same(one: &Paint, other: &Paint) -> bool {
    one.id == other.id && one.maker == other.maker && one.range == other.range
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
        let apart = |delta_e: f64, off: f64| Some(Apart { delta_e, off: Uncertainty { median: off / 2.0, nine_in_ten: off } });
        assert_eq!(ranks(&[apart(1.0, 2.0), apart(2.0, 2.0), apart(6.0, 2.0), apart(7.0, 20.0)]), [1, 1, 3, 1]);
        assert_eq!(ranks(&[None, None]), [1, 1]);
    }
}
