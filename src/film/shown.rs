//! What the zones of a model show after every step.

use std::ops::Range;

use crate::colour::space::Lab;
use crate::colour::{HIDES, Mixture, Stack};
use crate::measure::Colour;
use crate::trade::{Direction, Zone};

/// The predicted colours of a film.
#[derive(Debug, Clone)]
pub struct Appearance {
    pub(super) shown: Vec<Shown>,
    /// The colour of each that is shown.
    pub(super) colours: Vec<Option<Colour>>,
    pub(super) changes: Vec<Vec<Change>>,
    pub(super) layings: Vec<Option<Laying>>,
    pub(super) sides: Sides,
}

/// The sides of the areas on which something lies that came from one direction. Each zone of such an area has a track for
/// each side, and one for what looks to none of them; what the zone as a whole shows is their mean.
#[derive(Debug, Clone, Default)]
pub(super) struct Sides {
    /// For each area its sides, and its first track.
    pub(super) areas: Vec<(Vec<Direction>, usize)>,
    /// How many tracks there are, with those of the zones as a whole.
    pub(super) count: usize,
}

impl Sides {
    /// The sides of so many areas, by the areas of each coat that came from one direction.
    pub(super) fn of<'a>(areas: usize, coats: impl Iterator<Item = (&'a [usize], Direction)>) -> Self {
        let mut areas: Vec<(Vec<Direction>, usize)> = vec![(Vec::new(), 0); areas];
        for (reached, from) in coats {
            for area in reached {
                if let Some((sides, _)) = areas.get_mut(*area).filter(|(sides, _)| !sides.contains(&from)) {
                    sides.push(from);
                }
            }
        }
        let mut count = areas.len() * Zone::ALL.len();
        for (sides, first) in areas.iter_mut().filter(|(sides, _)| !sides.is_empty()) {
            *first = count;
            count += (sides.len() + 1) * Zone::ALL.len();
        }
        Self { areas, count }
    }

    /// The sides of an area.
    pub(super) fn on(&self, area: usize) -> &[Direction] {
        self.areas.get(area).map_or(&[], |(sides, _)| sides)
    }

    /// The tracks of a zone: that of what looks to no side first; the zone's own where its area has no sides.
    pub(super) fn tracks(&self, area: usize, zone: Zone) -> Range<usize> {
        match self.areas.get(area) {
            Some((sides, first)) if !sides.is_empty() => {
                let each = sides.len() + 1;
                let start = first + zone as usize * each;
                start..start + each
            }
            _ => slot(area, zone)..slot(area, zone) + 1,
        }
    }

    /// The track of what looks to a side, or of what looks to none.
    fn track(&self, area: usize, zone: Zone, from: Option<Direction>) -> usize {
        let side = from.and_then(|from| self.on(area).iter().position(|side| *side == from));
        self.tracks(area, zone).start + side.map_or(0, |side| side + 1)
    }

    /// The tracks that a coat lies on.
    pub(super) fn reached(&self, area: usize, zone: Zone, from: Option<Direction>) -> Range<usize> {
        match from {
            Some(_) => {
                let track = self.track(area, zone, from);
                track..track + 1
            }
            None => self.tracks(area, zone),
        }
    }
}

/// What a zone shows from one place of the order on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Change {
    pub(super) position: usize,
    pub(super) shown: usize,
}

/// What a zone shows.
#[derive(Debug, Clone, PartialEq)]
pub enum Shown {
    /// Nothing lies there.
    Bare,
    /// Films whose colour can be predicted.
    Known(Box<Stack>),
    /// A paint of unknown colour shows; the same films as if it were black, and as if it were white.
    Unknown(Box<[Stack; 2]>),
}

/// A coat that is laid as an even film: what is in it, and how much of it one coat is.
#[derive(Debug, Clone, PartialEq)]
pub struct Laying {
    /// The colour in the cup.
    pub mixture: Mixture,
    /// One coat of it, averaged over its zones, in coats of colour.
    pub coat: f64,
}

impl Shown {
    /// The films, where their colour can be predicted.
    pub fn stack(&self) -> Option<&Stack> {
        match self {
            Self::Known(stack) => Some(stack),
            Self::Bare | Self::Unknown(_) => None,
        }
    }

    /// The predicted colour.
    pub fn lab(&self) -> Option<Lab> {
        self.stack().map(Stack::lab)
    }

    pub(super) fn each(&self, bare: &Stack, change: impl Fn(&Stack) -> Stack) -> Self {
        match self {
            Self::Bare => Self::Known(Box::new(change(bare))),
            Self::Known(stack) => Self::Known(Box::new(change(stack))),
            Self::Unknown(both) => Self::between(Box::new(both.each_ref().map(change))),
        }
    }

    /// Several that lie beside each other, each on so much of the whole.
    pub(super) fn mean(parts: &[(f64, &Self)], bare: &Stack) -> Self {
        let of = |shown: &Self, over: usize| match shown {
            Self::Bare => bare.clone(),
            Self::Known(stack) => Stack::clone(stack),
            Self::Unknown(both) => both[over.min(1)].clone(),
        };
        let mean = |over: usize| {
            let mut laid = (0.0, bare.clone());
            for (share, shown) in parts {
                let all = laid.0 + share;
                if all > 0.0 {
                    laid = (all, of(shown, over).beside(share / all, &laid.1));
                }
            }
            laid.1
        };
        if parts.iter().any(|(_, shown)| matches!(shown, Self::Unknown(_))) {
            Self::between(Box::new([mean(0), mean(1)]))
        } else if parts.iter().all(|(_, shown)| matches!(shown, Self::Bare)) {
            Self::Bare
        } else {
            Self::Known(Box::new(mean(0)))
        }
    }

    /// Known again where the one can't be told from the other.
    fn between(both: Box<[Stack; 2]>) -> Self {
        let [over_black, over_white] = both.each_ref().map(|stack| stack.outer().luminance());
        if over_black >= HIDES * over_white {
            let [_, over_white] = *both;
            Self::Known(Box::new(over_white))
        } else {
            Self::Unknown(both)
        }
    }
}

impl Appearance {
    /// What a zone shows when the step at a place of the order begins.
    pub fn before(&self, position: usize, area: usize, zone: Zone) -> &Shown {
        self.shown.get(self.shown_before(position, area, zone)).unwrap_or(&Shown::Bare)
    }

    /// What a zone shows after the step at a place of the order.
    pub fn after(&self, position: usize, area: usize, zone: Zone) -> &Shown {
        self.before(position.saturating_add(1), area, zone)
    }

    /// The predicted colour of a zone after the step at a place of the order, as a screen shows it.
    pub fn colour_after(&self, position: usize, area: usize, zone: Zone) -> Option<Colour> {
        self.colours.get(self.shown_before(position.saturating_add(1), area, zone)).copied().flatten()
    }

    /// The sides of an area on which something lies that came from one direction.
    pub fn sides(&self, area: usize) -> &[Direction] {
        self.sides.on(area)
    }

    /// What a zone shows where it looks to a side when the step at a place of the order begins; without a side, or where
    /// nothing came from there, where it looks to none that has something of its own.
    pub fn before_toward(&self, position: usize, area: usize, zone: Zone, from: Option<Direction>) -> &Shown {
        let track = self.sides.track(area, zone, from);
        self.shown.get(self.last_before(position, track)).unwrap_or(&Shown::Bare)
    }

    /// The same after the step at a place of the order.
    pub fn after_toward(&self, position: usize, area: usize, zone: Zone, from: Option<Direction>) -> &Shown {
        self.before_toward(position.saturating_add(1), area, zone, from)
    }

    /// The predicted colour of a zone where it looks to a side, or without one of the zone as a whole, after the step at a
    /// place of the order.
    pub fn colour_toward(&self, position: usize, area: usize, zone: Zone, from: Option<Direction>) -> Option<Colour> {
        match from {
            None => self.colour_after(position, area, zone),
            Some(_) => self.after_toward(position, area, zone, from).stack().map(Stack::colour),
        }
    }

    fn shown_before(&self, position: usize, area: usize, zone: Zone) -> usize {
        self.last_before(position, slot(area, zone))
    }

    fn last_before(&self, position: usize, track: usize) -> usize {
        let changes = self.changes.get(track).map(Vec::as_slice).unwrap_or_default();
        let last = changes.partition_point(|change| change.position < position).checked_sub(1);
        last.and_then(|last| changes.get(last)).map_or(0, |change| change.shown)
    }

    /// The places in the order at which a zone changes its look.
    pub fn changes(&self, area: usize, zone: Zone) -> impl Iterator<Item = usize> {
        self.changes.get(slot(area, zone)).into_iter().flatten().map(|change| change.position)
    }

    /// What is laid as an even film of a known colour at a place of the order.
    pub fn laying(&self, position: usize) -> Option<&Laying> {
        self.layings.get(position)?.as_ref()
    }
}

/// The place of a zone in [`Appearance`].
pub(super) fn slot(area: usize, zone: Zone) -> usize {
    area * Zone::ALL.len() + zone as usize
}
