//! How long every step of a scheme takes and waits, as the film's clock has it: the one answer for pages, card and data.

use crate::bench::Minutes;
use crate::film::{Film, Reason, What};
use crate::measure::Time;

/// How long a step takes on one model, and how long it rests.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StepTimes {
    /// Work, all coats together.
    pub hands_on: Time,
    /// Whether the work is the usual for such a step, because the author does not say.
    pub usual: bool,
    /// How long two that are blended stay wet together, where that is known.
    pub window: Option<Time>,
    /// Rest between two coats; `None` where there is one.
    pub between: Option<Time>,
    /// Rest after the last coat: for the next step on its areas, and for a later one that needs more.
    pub rests: Vec<RestFor>,
    /// How long the hands lie idle until anything else can be done: the step's share of a scheme's drying time.
    pub idle: Time,
}

/// A rest, and what it is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RestFor {
    /// How long.
    pub time: Time,
    /// Why.
    pub reason: Reason,
    /// The step that it is for, by its place in the scheme's list.
    pub before: Option<usize>,
    /// Whether the author wrote it.
    pub written: bool,
}

impl RestFor {
    /// Its name in a theme's words: an author's rest of no time at all is paint on wet paint.
    pub fn name(&self) -> &'static str {
        if self.time == Time::default() { "wet" } else { self.reason.name() }
    }
}

impl StepTimes {
    /// How long the step dries in all: between its coats and for the next step on its areas.
    pub fn drying(&self, coats: u32) -> Time {
        let between = self.between.map(|between| between.times(coats.saturating_sub(1))).unwrap_or_default();
        between + self.rests.first().map(|rest| rest.time).unwrap_or_default()
    }
}

/// The times of each step, in the order of the steps.
pub(super) fn times(film: &Film<'_>) -> Vec<StepTimes> {
    (0..film.turns().len()).map(|position| of_step(film, position)).collect()
}

fn of_step(film: &Film<'_>, position: usize) -> StepTimes {
    let wait = film.wait(position);
    let step = film.step(position);
    let several = step.is_some_and(|step| step.coats > 1);
    // What an author writes stands as it is written; what is filled in is no finer than anybody waits.
    let own = |written: Option<Time>, filled: Minutes| written.unwrap_or_else(|| filled.to_be_written().as_time());
    let is_loose = film.coat(position).is_some_and(|coat| coat.what == What::Powder);
    // Loose powder is never wet: there is nothing to wait for, and nothing to hurry for.
    let rests = film.rests(position).into_iter().filter(|rest| rest.time.0 > 0.0 || (rest.written && !is_loose));
    let rests = rests.map(|rest| RestFor {
        time: match step.and_then(|step| step.dry) {
            Some(dry) if rest.written && rest.before.is_none() => dry,
            _ => rest.time.as_time(),
        },
        reason: rest.reason,
        before: rest.before,
        written: rest.written,
    });
    StepTimes {
        hands_on: wait.hands_on.as_time(),
        usual: wait.usual,
        window: film.coat(position).and_then(|coat| coat.open).map(|open| open.to_be_written().as_time()),
        between: several
            .then(|| own(step.and_then(|step| step.wait), wait.between))
            .filter(|time| *time > Time::default()),
        rests: rests.collect(),
        idle: film.idle(position).as_time(),
    }
}
