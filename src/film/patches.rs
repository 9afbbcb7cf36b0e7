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

/// The patches of one area: every side of every cell.
#[derive(Debug, Clone, Default)]
struct OfArea {
    /// The sides from which something came.
    sides: Vec<Direction>,
    /// What masks part it into; empty where none does.
    cells: Vec<Cell>,
    /// The first of its tracks.
    first: usize,
}

/// A part of an area over which the same masks lay.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cell {
    /// How much of the area, from 0 to 1.
    pub share: f64,
    /// The places in the order of the steps that put these masks on; the first cell has none.
    pub masks: Vec<usize>,
}

/// A patch of an area.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Patch {
    /// The side to which it looks; none: to none from which something came.
    pub side: Option<Direction>,
    /// The cell, by its place among those of its area; the first lay under no mask.
    pub cell: usize,
}

/// Into more cells no area is parted; a pattern has three or four colours.
const MOST_CELLS: usize = 32;

/// A mask as it is put on: its place in the order, how much of the area it covers, and the masks that lie there already.
pub(super) type PutOn<'a> = (usize, f64, &'a [usize]);

impl OfArea {
    fn is_one(&self) -> bool {
        self.sides.is_empty() && self.cells.is_empty()
    }

    fn sides_and_rest(&self) -> usize {
        self.sides.len() + 1
    }

    fn tracks(&self) -> usize {
        self.sides_and_rest() * self.cells.len().max(1)
    }

    /// Parts the cells that lie open: a mask is put beside those that lie there, and over what earlier ones left as it
    /// comes, so that it covers the same share of every open cell.
    fn put_on(&mut self, (on, covers, lying): PutOn<'_>) {
        if self.cells.is_empty() {
            self.cells.push(Cell { share: 1.0, masks: Vec::new() });
        }
        if self.cells.len() > MOST_CELLS / 2 {
            return;
        }
        let is_open = |cell: &Cell| !cell.masks.iter().any(|mask| lying.contains(mask));
        let open: f64 = self.cells.iter().filter(|cell| is_open(cell)).map(|cell| cell.share).sum();
        let part = if open > 0.0 { (covers / open).min(1.0) } else { 0.0 };
        let mut covered = Vec::new();
        for cell in self.cells.iter_mut().filter(|cell| is_open(cell)) {
            let masks = cell.masks.iter().copied().chain([on]).collect();
            covered.push(Cell { share: cell.share * part, masks });
            cell.share *= 1.0 - part;
        }
        self.cells.extend(covered);
    }
}

impl Patches {
    /// The patches of so many areas, by what came from one side (the area and the side) and by the masks on parts of areas
    /// (the area and the mask), both in the order of work.
    pub(super) fn of<'a>(
        areas: usize,
        sides: impl Iterator<Item = (usize, Direction)>,
        masks: impl Iterator<Item = (usize, PutOn<'a>)>,
    ) -> Self {
        let mut areas: Vec<OfArea> = vec![OfArea::default(); areas];
        for (area, from) in sides {
            if let Some(of_area) = areas.get_mut(area).filter(|of_area| !of_area.sides.contains(&from)) {
                of_area.sides.push(from);
            }
        }
        for (area, mask) in masks {
            if let Some(of_area) = areas.get_mut(area) {
                of_area.put_on(mask);
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

    /// What masks part an area into; nothing where none does.
    pub(super) fn cells(&self, area: usize) -> &[Cell] {
        self.areas.get(area).map_or(&[], |area| &area.cells)
    }

    /// The track of a patch; the zone's own where its area has none.
    pub(super) fn track(&self, area: usize, zone: Zone, patch: Patch) -> usize {
        let Some(of_area) = self.areas.get(area).filter(|area| !area.is_one()) else { return slot(area, zone) };
        let side = patch.side.and_then(|from| of_area.sides.iter().position(|side| *side == from));
        let cell = patch.cell.min(of_area.cells.len().saturating_sub(1));
        let within = cell * of_area.sides_and_rest() + side.map_or(0, |side| side + 1);
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
        let is_open =
            |cell: usize| of_area.cells.get(cell).is_none_or(|cell| !cell.masks.iter().any(|mask| lies(*mask)));
        let mut tracks = Vec::new();
        for cell in (0..of_area.cells.len().max(1)).filter(|cell| is_open(*cell)) {
            tracks.push(self.track(area, zone, Patch { side: from, cell }));
            if from.is_none() {
                let sides = of_area.sides.iter();
                tracks.extend(sides.map(|side| self.track(area, zone, Patch { side: Some(*side), cell })));
            }
        }
        tracks
    }

    /// The tracks of a zone in one cell, each with its share of that: what looks to no side first.
    pub(super) fn within(&self, (area, zone): (usize, Zone), cell: usize, bench: &Bench) -> Vec<(f64, usize)> {
        let sides = self.sides(area);
        let all = f64::from(u32::try_from(sides.len()).unwrap_or(u32::MAX));
        let aimed = if sides.is_empty() { 0.0 } else { aimed_share(zone, bench).min(1.0 / all) };
        let rest = ((1.0 - aimed * all).max(0.0), self.track(area, zone, Patch { side: None, cell }));
        let toward = sides.iter().map(|side| (aimed, self.track(area, zone, Patch { side: Some(*side), cell })));
        std::iter::once(rest).chain(toward).collect()
    }
}

/// The place of a zone in [`Appearance`](super::Appearance).
pub(super) fn slot(area: usize, zone: Zone) -> usize {
    area * Zone::ALL.len() + zone as usize
}
