//! How many other orders may be tried for one scheme. A film that is walked again costs the more, the more steps there
//! are; a scheme of two hundred steps in a jumble must end as soon as a good one.

use std::cell::Cell;

use crate::guide::Scheme;
use crate::report::{Check, Finding, Group, Level, wording};

/// The search for moves ends in time.
pub(in crate::rules) static MENDS_UNTRIED: Check = Check {
    id: "mends-untried",
    level: Level::Note,
    about: "the order of a scheme is sound enough for every move of its steps to be tried",
    why: "where some hundred moves were tried for the first faults, the others show the rule's own mend and not a better place",
    group: Group::Order,
    safety: false,
};

/// What may still be tried.
#[derive(Debug)]
pub(in crate::rules) struct Budget {
    walks: Cell<usize>,
    refused: Cell<bool>,
}

/// So many steps, times the steps beneath each, may be looked at again for one scheme.
const LAYERS_LOOKED_AT: usize = 400_000;

/// At most and at least so many orders are tried, however short or long the scheme is.
const MOST_WALKS: usize = 3_000;
const FEWEST_WALKS: usize = 30;

impl Budget {
    /// The budget of a scheme of so many steps.
    pub(in crate::rules) fn of(steps: usize) -> Self {
        let walks = LAYERS_LOOKED_AT / (steps * steps).max(1);
        Self { walks: Cell::new(walks.clamp(FEWEST_WALKS, MOST_WALKS)), refused: Cell::new(false) }
    }

    /// Takes one walk, if one is left.
    pub(super) fn spend(&self) -> bool {
        let left = self.walks.get();
        if left == 0 {
            self.refused.set(true);
            return false;
        }
        self.walks.set(left - 1);
        true
    }

    /// The note that not every move was tried, if that is so.
    pub(in crate::rules) fn note(&self, scheme: &Scheme) -> Option<Finding> {
        let title = wording::quoted(&scheme.title);
        let message = format!("the order of {title} has so many faults that not every move was tried for each of them");
        let mend = "mend the first ones, or let 'maulstick check --mend' propose an order, and check again";
        self.refused.get().then(|| Finding::new(&MENDS_UNTRIED, scheme.place, message, mend))
    }
}
