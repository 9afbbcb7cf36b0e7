//! What is looked for: a paint, or a colour alone.

use super::apart::Look;
use super::looks::{Sort, hides_alike, sort};
use crate::guide::Paint;
use crate::measure::Colour;
use crate::trade::{Hiding, Kind};

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

impl<'a> Wanted<'a> {
    /// Something in the place of a paint.
    pub fn in_place_of(paint: &'a Paint, look: Option<Look>) -> Self {
        Self { paint: Some(paint), sort: sort(paint), look }
    }

    /// A paint of a sort that has this colour.
    pub fn of_colour(colour: Colour, sort: Kind) -> Self {
        Self { paint: None, sort, look: Some(Look::exact(colour)) }
    }

    /// What decides what its colour stands for; of a colour alone, as if it were transparent where its sort mostly is.
    pub(super) fn stands_for(&self) -> Sort {
        (self.sort, self.paint.map_or(Hiding::Transparent, |paint| paint.hiding))
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
