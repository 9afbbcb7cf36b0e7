//! **Plan**: an army's models, steps and coats, laid out over the evenings on which there is time to paint.
//!
//! Every coat of every step of a unit is a pass over its models. A pass follows the passes on the same areas when they
//! have dried, and passes that belong together (all coats of a `together` step; a colour and its chipping) stand in a
//! bundle that one evening holds. One pair of hands lays one pass after the other; while something
//! dries they do something else, and what is laid at the end of an evening dries overnight.
//!
//! What the program decides where the file format leaves it open:
//! - two steps keep their order where they share an area, where one of them sprays and could dust the other's areas,
//!   where a mask lies between them, where neat brushwork follows a large drybrush beside it, and where `after` says so;
//!   all other steps may change places;
//! - between them lies the first one's `dry`, or else what the film's clock asks for before the next one, such as a night
//!   for washed models; where they share no area, and nobody wrote `after`, it must only be dry to the touch;
//! - a model gets brushed coats that wait for minutes only on one evening that holds them, with other work between them;
//! - models are taken in their order; a pass may be split between evenings, a `together` step may not, and nothing is
//!   done between its coats;
//! - a step that was begun is ended before others are opened, as far as that costs no evening; a mask goes on, is painted over and
//!   comes off on one evening that holds all of that, where it would lie longer than it may otherwise;
//! - between sprayed coats that are minutes apart the airbrush waits, and nothing is done that takes longer than they dry;
//! - what several units get `together` with the same mix is begun when all of them can have it, so that one evening
//!   sees them all where it holds them; that never costs an evening in the end;
//! - what is sprayed for a unit goes over all its models in one run, or in as few as the longest evening allows;
//! - where drying would cut a pass into pieces of a few models, it begins so much later that it need not stop;
//! - a colour over a chipping film is chipped, and a mask on open paint is taken off, on the evening of the last coat; the
//!   film, and what is sprayed over any mask, go on that evening too where it holds them;
//! - an airbrush is made ready once an evening, rinsed between colours, stripped before a product that needs another
//!   cleaner, and stripped when no more of it comes.
//!
//! How it is found: a list schedule takes, at every moment, the ready pass with the longest way before it, and rather one
//! with the colour that is in the hand; a search with a fixed seed then shakes the ranks, until it meets the lower bound or
//! for a number of steps that follows from the size of the army and never from a clock. All decisions are made on whole
//! seconds. The lower bound says what no plan can beat.

mod bound;
mod build;
mod calendar;
mod changes;
mod checks;
mod chosen;
mod crowd;
mod dates;
mod evening;
mod hands;
mod lots;
mod moment;
mod order;
mod random;
mod ranks;
mod schedule;
mod search;
mod sew;
mod told;
mod usual;
mod windows;
mod workload;

pub use checks::CHECKS;
pub use evening::{Block, Evening, Plan, Resting, Task};
pub use hands::{Kit, Tool};
pub use told::{Effort, check, effort};

use crate::film::Conditions;
use crate::guide::Army;
use crate::measure::Date;
use calendar::Calendar;
use moment::Seconds;

/// The plan of an army; `None` where it names no evenings, or where its work does not go into them, which [`check`] tells.
pub fn plan(army: &Army, conditions: &Conditions) -> Option<Plan> {
    let calendar = Calendar::of(army.evenings.as_ref()?)?;
    let work = build::workload(army, conditions, Some(&calendar)).ok()?;
    chosen::chosen(&work, &calendar)
}

/// The days from which to which an army is at the desk at most, by the schedule that the search for its plan begins with;
/// `None` where there is none.
pub fn days(army: &Army, conditions: &Conditions) -> Option<(Date, Date)> {
    let calendar = Calendar::of(army.evenings.as_ref()?)?;
    let work = build::workload(army, conditions, Some(&calendar)).ok()?;
    let found = search::first(&work, &calendar)?;
    Some((calendar.date(0), calendar.date_of(found.finish)))
}
