//! What the zones of a model show after every step.

use super::patches::{Cell, Patch, Patches, slot};
use crate::colour::space::{Lab, lab_difference};
use crate::colour::{HIDES, JUST_SEEN, Mixture, Stack};
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
    /// The colour of what is in the cup of each step.
    pub(super) own: Vec<Option<Colour>>,
    pub(super) patches: Patches,
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

    /// The sides of an area from which something came.
    pub fn sides(&self, area: usize) -> &[Direction] {
        self.patches.sides(area)
    }

    /// What masks on parts of an area part it into; nothing where none does. [`Patch::cell`] counts these.
    pub fn cells(&self, area: usize) -> &[Cell] {
        self.patches.cells(area)
    }

    /// Whether one sees no difference between two that are shown.
    pub(super) fn is_alike(&self, one: usize, other: usize) -> bool {
        let lab = |at: usize| self.shown.get(at).and_then(Shown::lab);
        one == other || lab(one).zip(lab(other)).is_some_and(|(one, other)| lab_difference(one, other) < JUST_SEEN)
    }

    /// What a zone shows in the end, part by part where masks kept something: how much of the area and what, the largest
    /// first, of equal ones what was there first.
    pub fn parts(&self, area: usize, zone: Zone) -> Vec<(f64, &Shown)> {
        let mut parts: Vec<(f64, usize)> = Vec::new();
        for (cell, Cell { share, .. }) in self.cells(area).iter().enumerate().rev() {
            let track = self.patches.track(area, zone, Patch { side: None, cell });
            let shown = self.last_before(usize::MAX, track);
            match parts.iter_mut().find(|(_, known)| self.is_alike(*known, shown)) {
                Some((all, _)) => *all += share,
                None => parts.push((*share, shown)),
            }
        }
        parts.sort_by(|one, other| other.0.total_cmp(&one.0));
        parts.into_iter().filter_map(|(share, shown)| Some((share, self.shown.get(shown)?))).collect()
    }

    /// What a patch of a zone shows when the step at a place of the order begins; a side from which nothing came is what
    /// looks to none.
    pub fn before_on(&self, position: usize, area: usize, zone: Zone, patch: Patch) -> &Shown {
        let track = self.patches.track(area, zone, patch);
        self.shown.get(self.last_before(position, track)).unwrap_or(&Shown::Bare)
    }

    /// The same after the step at a place of the order.
    pub fn after_on(&self, position: usize, area: usize, zone: Zone, patch: Patch) -> &Shown {
        self.before_on(position.saturating_add(1), area, zone, patch)
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

    /// The colour of what is laid at a place of the order, by itself: what one sees of it in the cup, and of flecks of it. `None` where it
    /// has none, or one that nobody knows.
    pub fn own_colour(&self, position: usize) -> Option<Colour> {
        self.own.get(position).copied().flatten()
    }

    /// What is laid as an even film of a known colour at a place of the order.
    pub fn laying(&self, position: usize) -> Option<&Laying> {
        self.layings.get(position)?.as_ref()
    }
}
