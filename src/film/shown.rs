//! What the zones of a model show after every step.

use crate::colour::space::Lab;
use crate::colour::{HIDES, Mixture, Stack};
use crate::measure::Colour;
use crate::trade::Zone;

/// The predicted colours of a film.
#[derive(Debug, Clone)]
pub struct Appearance {
    pub(super) shown: Vec<Shown>,
    /// The colour of each that is shown.
    pub(super) colours: Vec<Option<Colour>>,
    pub(super) changes: Vec<Vec<Change>>,
    pub(super) layings: Vec<Option<Laying>>,
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

    fn shown_before(&self, position: usize, area: usize, zone: Zone) -> usize {
        let changes = self.changes.get(slot(area, zone)).map(Vec::as_slice).unwrap_or_default();
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
