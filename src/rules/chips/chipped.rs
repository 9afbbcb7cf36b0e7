//! What lies where paint is chipped: the soluble film, and the coats over it.

use crate::film::{Coat, Deed, What};
use crate::rules::Look;
use crate::trade::Zone;

/// The soluble film in one zone, and what was laid over it.
pub(in crate::rules) struct Chipped<'a> {
    /// The film that lets go.
    pub(in crate::rules) resist: &'a Coat<'a>,
    /// The coats over it, from the bottom up.
    pub(in crate::rules) over: Vec<&'a Coat<'a>>,
}

/// Whether a step takes paint away.
pub(in crate::rules) fn takes_away(look: &Look<'_>) -> bool {
    look.film.turn(look.position).is_some_and(|turn| turn.deed == Deed::Chip)
}

/// On each area that a step chips, the last soluble film there, where one lies under the paint.
pub(in crate::rules) fn chipped<'a>(look: &Look<'a>) -> Vec<(usize, Chipped<'a>)> {
    if !takes_away(look) {
        return Vec::new();
    }
    let before = look.before();
    look.on_zones(|area, zone| {
        let resist = resist(look, area, zone)?;
        let over = before.coats(area, zone).filter(|coat| coat.position > resist.position).collect();
        Some(Chipped { resist, over })
    })
}

/// The last soluble film in a zone.
pub(in crate::rules) fn resist<'a>(look: &Look<'a>, area: usize, zone: Zone) -> Option<&'a Coat<'a>> {
    look.before().coats(area, zone).rfind(|coat| coat.what == What::Resist)
}

/// The first later step before a place in the order that varnishes one of some areas.
pub(in crate::rules) fn varnish_later(look: &Look<'_>, areas: &[usize], before: usize) -> Option<usize> {
    let seals = |coat: &&Coat<'_>| {
        coat.what == What::Varnish
            && coat.position > look.position
            && coat.position < before
            && look.film.areas(coat.position).iter().any(|area| areas.contains(area))
    };
    look.film.coats().iter().find(seals).map(|coat| coat.step)
}

/// Whether paint lies over a soluble film in a zone, so that there is something to chip.
pub(in crate::rules) fn can_chip(look: &Look<'_>, area: usize, zone: Zone) -> bool {
    let top = look.before().top(area, zone);
    resist(look, area, zone).is_some() && top.is_some_and(|top| top.what != What::Resist)
}
