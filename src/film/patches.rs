//! The parts of an area that do not look alike: what light or paint from one side lies on, and what lay under a mask while
//! something was laid beside it.

use super::coat::aimed_share;
use crate::bench::Bench;
use crate::trade::{Direction, Zone};

/// The patches of all areas. Each zone of an area that has any has a track for each of them; what the zone as a whole
/// shows is made of these.
#[derive(Debug, Clone, Default)]
pub(super) struct Patches {
    areas: Vec<OfArea>,
    /// How many tracks there are, with those of the zones as a whole.
    pub(super) count: usize,
}

/// The patches of one area: every side under every mask.
#[derive(Debug, Clone, Default)]
struct OfArea {
    /// The sides from which something came.
    sides: Vec<Direction>,
    /// The masks that lay on it while something was laid beside them.
    masks: Vec<Masked>,
    /// The first of its tracks.
    first: usize,
}

/// What a mask kept as it was.
#[derive(Debug, Clone, Copy)]
struct Masked {
    /// The place in the order of the step that put it on.
    on: usize,
    /// How much of the area it covered, from 0 to 1.
    covers: f64,
}

/// A patch of an area.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Patch {
    /// The side to which it looks; none: to none from which something came.
    pub side: Option<Direction>,
    /// Which of the area's masks lay on it, counted from 1; 0: none did.
    pub mask: usize,
}

/// What a mask kept as it was while something was laid beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kept {
    /// How much of the area, from 0 to 1.
    pub share: f64,
    /// The place in the order of the step that put the mask on; none: what no mask kept.
    pub by: Option<usize>,
}

impl OfArea {
    fn is_one(&self) -> bool {
        self.sides.is_empty() && self.masks.is_empty()
    }

    fn sides_and_rest(&self) -> usize {
        self.sides.len() + 1
    }

    fn tracks(&self) -> usize {
        self.sides_and_rest() * (self.masks.len() + 1)
    }

    /// Where all masks together would keep more than there is, they lay over each other.
    fn kept(&self) -> Vec<Kept> {
        let all: f64 = self.masks.iter().map(|mask| mask.covers).sum();
        let kept = self.masks.iter().map(|mask| Kept { share: mask.covers / all.max(1.0), by: Some(mask.on) });
        std::iter::once(Kept { share: (1.0 - all).max(0.0), by: None }).chain(kept).collect()
    }
}

impl Patches {
    /// The patches of so many areas, by what was laid on each: the area, the side from which it came, and the masks that
    /// lay there by their places in the order, with how much of the area each covers.
    pub(super) fn of<M>(areas: usize, laid: impl Iterator<Item = (usize, Option<Direction>, M)>) -> Self
    where
        M: Iterator<Item = (usize, f64)>,
    {
        let mut areas: Vec<OfArea> = vec![OfArea::default(); areas];
        for (area, from, masks) in laid {
            let Some(of_area) = areas.get_mut(area) else { continue };
            if let Some(from) = from.filter(|from| !of_area.sides.contains(from)) {
                of_area.sides.push(from);
            }
            for (on, covers) in masks.filter(|(_, covers)| *covers > 0.0) {
                if of_area.masks.iter().all(|known| known.on != on) {
                    of_area.masks.push(Masked { on, covers });
                }
            }
        }
        let mut count = areas.len() * Zone::ALL.len();
        for area in areas.iter_mut().filter(|area| !area.is_one()) {
            area.first = count;
            count += area.tracks() * Zone::ALL.len();
        }
        Self { areas, count }
    }

    /// The sides of an area from which something came.
    pub(super) fn sides(&self, area: usize) -> &[Direction] {
        self.areas.get(area).map_or(&[], |area| &area.sides)
    }

    /// Whether a zone shows one thing all over.
    pub(super) fn is_one(&self, area: usize) -> bool {
        self.areas.get(area).is_none_or(OfArea::is_one)
    }

    /// What each of an area's masks kept, what none did first.
    pub(super) fn kept(&self, area: usize) -> Vec<Kept> {
        self.areas.get(area).map(OfArea::kept).unwrap_or_default()
    }

    /// The track of a patch; the zone's own where its area has none.
    pub(super) fn track(&self, area: usize, zone: Zone, patch: Patch) -> usize {
        let Some(of_area) = self.areas.get(area).filter(|area| !area.is_one()) else { return slot(area, zone) };
        let side = patch.side.and_then(|from| of_area.sides.iter().position(|side| *side == from));
        let within = patch.mask.min(of_area.masks.len()) * of_area.sides_and_rest() + side.map_or(0, |side| side + 1);
        of_area.first + zone as usize * of_area.tracks() + within
    }

    /// The tracks of a zone that something reaches that comes from one side or from everywhere, where some masks lie.
    pub(super) fn reached(
        &self,
        (area, zone): (usize, Zone),
        from: Option<Direction>,
        lies: impl Fn(usize) -> bool,
    ) -> Vec<usize> {
        let Some(of_area) = self.areas.get(area).filter(|area| !area.is_one()) else { return vec![slot(area, zone)] };
        let masks = of_area.masks.iter().zip(1..).filter(|(mask, _)| !lies(mask.on)).map(|(_, mask)| mask);
        let mut tracks = Vec::new();
        for mask in std::iter::once(0).chain(masks) {
            tracks.push(self.track(area, zone, Patch { side: from, mask }));
            if from.is_none() {
                let sides = of_area.sides.iter();
                tracks.extend(sides.map(|side| self.track(area, zone, Patch { side: Some(*side), mask })));
            }
        }
        tracks
    }

    /// The tracks of a zone under one of its area's masks, each with its share of what that mask kept: what looks to no
    /// side first.
    pub(super) fn under(&self, (area, zone): (usize, Zone), mask: usize, bench: &Bench) -> Vec<(f64, usize)> {
        let sides = self.sides(area);
        let all = f64::from(u32::try_from(sides.len()).unwrap_or(u32::MAX));
        let aimed = if sides.is_empty() { 0.0 } else { aimed_share(zone, bench).min(1.0 / all) };
        let rest = ((1.0 - aimed * all).max(0.0), self.track(area, zone, Patch { side: None, mask }));
        let toward = sides.iter().map(|side| (aimed, self.track(area, zone, Patch { side: Some(*side), mask })));
        std::iter::once(rest).chain(toward).collect()
    }
}

/// The place of a zone in [`Appearance`](super::Appearance).
pub(super) fn slot(area: usize, zone: Zone) -> usize {
    area * Zone::ALL.len() + zone as usize
}
