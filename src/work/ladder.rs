//! The coat ladder: the colour after no coat, one, two and so on, and where more would not show.

use crate::colour::{JUST_SEEN, Mixture, Stack, space};
use crate::measure::Colour;

/// At most so many coats stand on a ladder.
const MOST: u32 = 12;

/// So many coats beyond the step's own are shown, where they can still be seen.
const BEYOND: u32 = 3;

/// The colour coat by coat.
#[derive(Debug, Clone, PartialEq)]
pub struct Ladder {
    /// The rungs, from no coat on.
    pub rungs: Vec<Rung>,
    /// How many coats the step lays.
    pub own: u32,
    /// After how many coats one more moves the colour by less than can be seen, whatever it is of all that it may be;
    /// `None`: after more than are shown.
    pub shows_until: Option<u32>,
}

/// The colour after some coats.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rung {
    /// The predicted colour.
    pub colour: Colour,
    /// How far it is from the rung before, in CIEDE2000; zero on the first.
    pub apart: f64,
    /// Two colours that it may be as well, the darker first.
    pub between: [Colour; 2],
}

impl Ladder {
    /// The ladder of a step's coats, each of so many coats of colour, on what lies beneath; `None` where there are too
    /// many to be shown.
    pub(super) fn of(beneath: &Stack, mixture: &Mixture, coat: f64, own: u32) -> Option<Self> {
        if own > MOST {
            return None;
        }
        let mut rungs = vec![Rung::of(beneath, 0.0)];
        let mut before = beneath.clone();
        let mut shows_until = None;
        for coats in 1..=own.saturating_add(BEYOND).min(MOST) {
            let here = beneath.lay(mixture, f64::from(coats) * coat);
            let apart = space::lab_difference(before.lab(), here.lab());
            if here.moved_from(&before) >= JUST_SEEN {
                shows_until = None;
            } else {
                shows_until = shows_until.or(Some(coats - 1));
            }
            if coats > own && shows_until.is_some_and(|last| last < coats - 1) {
                break;
            }
            rungs.push(Rung::of(&here, apart));
            before = here;
        }
        Some(Self { rungs, own, shows_until })
    }
}

impl Rung {
    fn of(stack: &Stack, apart: f64) -> Self {
        let colour = stack.colour();
        Self { colour, apart, between: stack.bounds().unwrap_or([colour; 2]) }
    }
}
