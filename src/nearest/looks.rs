//! What paints are compared by: their sort and the one colour that each is known by.

use super::apart::Look;
use crate::colour::space::{self, Lab};
use crate::colour::{Mixture, Pigment, Surface, Uncertainty, coats_over_white};
use crate::guide::Paint;
use crate::trade::{Hiding, Kind, Sheen};

/// The sort of a paint: its kind, but whatever shines by metal flakes is a metal.
pub fn sort(paint: &Paint) -> Kind {
    if paint.kind.has_colour() && paint.sheen == Sheen::Metallic { Kind::Metal } else { paint.kind }
}

/// Whether two hiding classes are the same or neighbours.
pub(super) fn hides_alike(one: Hiding, other: Hiding) -> bool {
    (one as i32).abs_diff(other as i32) <= 1
}

/// The colour that a paint is known by; `None` where it has none or the author says nothing of it.
pub(super) fn look<'a>(paint: &Paint, surface: Surface, pigment: impl Fn() -> Option<&'a Pigment>) -> Option<Look> {
    if !paint.kind.has_colour() {
        return None;
    }
    if let Some(colour) = paint.colour {
        return Some(Look::stated(colour));
    }
    let mixture = Mixture::of(&[(pigment()?, 1.0)])?;
    let off = uncertainty(&mixture, (sort(paint), paint.hiding), surface).unwrap_or(Uncertainty::NONE);
    Some(Look { lab: known_by(&mixture, (sort(paint), paint.hiding), surface), off })
}

/// What kind of paint is looked for, and how it hides: both decide what its colour stands for.
pub(super) type Sort = (Kind, Hiding);

/// How far that colour may be off; `None` where nothing of it had to be predicted.
pub(super) fn uncertainty(mixture: &Mixture, (sort, hiding): Sort, surface: Surface) -> Option<Uncertainty> {
    match coats_over_white(sort, hiding) {
        Some(coats) => mixture.uncertainty_over_white(coats, surface),
        None => mixture.uncertainty(surface),
    }
}

/// Whether a paint of one sort goes into a mix that is to be of another: inks and clears tint what is painted.
pub(super) fn goes_into(part: Kind, sort: Kind) -> bool {
    let tints = matches!(part, Kind::Ink | Kind::Clear);
    part == sort || (tints && matches!(sort, Kind::Paint | Kind::Ink | Kind::Clear | Kind::Wash | Kind::OneCoat))
}

/// The colour that a mix would be known by if it were a paint of this sort.
pub(super) fn known_by(mixture: &Mixture, (sort, hiding): Sort, surface: Surface) -> Lab {
    space::lab(
        coats_over_white(sort, hiding)
            .map_or_else(|| mixture.opaque(surface), |coats| mixture.over_white(coats, surface)),
    )
}
