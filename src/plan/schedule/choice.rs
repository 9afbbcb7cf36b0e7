//! Which of the things that are ready is taken.

use super::readiness::Ready;
use super::state::{Begun, State};
use crate::plan::Seconds;
use crate::plan::hands::{Hands, Tool};
use crate::plan::workload::{Pass, Workload};

/// What decides between things that are ready.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Rule {
    /// The weight of each bundle.
    pub(in crate::plan) weights: Vec<Seconds>,
    /// What it is worth to go on with the colour in the hand.
    pub(in crate::plan) keep: Seconds,
    /// Less spraying than this is put off while there is something else to do.
    pub(in crate::plan) worth_spraying: Seconds,
}

/// Something that can be done now.
#[derive(Debug, Clone, Copy)]
pub(super) struct Choice {
    pub(super) bundle: usize,
    pub(super) models: u32,
    score: (bool, Seconds),
}

/// What room there is.
#[derive(Debug, Clone, Copy)]
pub(super) struct Room {
    /// Until when.
    pub(super) until: Seconds,
    /// Whether the time to strip the airbrush is taken off already.
    pub(super) stripped: bool,
    /// Whether only single passes may go in.
    pub(super) single: bool,
    /// Whether the airbrush must be stripped before what was begun goes on.
    pub(super) strip_first: bool,
}

/// Looks through what is open, and weighs it by a rule.
#[derive(Debug)]
pub(super) struct Chooser<'a> {
    work: &'a Workload,
    rule: &'a Rule,
    /// How many bundles were looked at.
    pub(super) looks: u64,
    starts: Vec<Seconds>,
}

impl<'a> Chooser<'a> {
    /// A chooser that has looked at nothing yet.
    pub(super) fn new(work: &'a Workload, rule: &'a Rule) -> Self {
        Self { work, rule, looks: 0, starts: Vec::new() }
    }

    /// The best of what is ready now and has room.
    pub(super) fn best(&mut self, state: &State, room: Room) -> Option<Choice> {
        let mut best: Option<Choice> = None;
        for bundle in &state.open {
            self.looks += 1;
            let choice = self.choice(state, *bundle, room);
            if let Some(choice) = choice.filter(|one| best.is_none_or(|best| one.score > best.score)) {
                best = Some(choice);
            }
        }
        best
    }

    /// Room for other work until an evening ends, so that what was begun is still ended, even with other tools in hand.
    pub(super) fn room_beside(&mut self, state: &State, begun: &Begun, end_of_evening: Seconds) -> Room {
        let ready = Ready { work: self.work, state };
        let count = begun.models.end - begun.models.start;
        let idle = Hands { brush: None, ..state.hands };
        let other = if state.hands.airbrush.is_some() { Hands { airbrush: Some(usize::MAX), ..idle } } else { idle };
        let outside = |pass: &Pass| ready.earliest(pass, begun.models.clone()).unwrap_or_default();
        let end = self.work.lay_out(&begun.left, count, (state.now, other), &mut self.starts, outside);
        let strips = state.hands.airbrush.is_some() || self.work.sprays(&begun.left);
        let limit = end_of_evening.saturating_sub(if strips { self.work.changes.strip } else { 0 });
        let first = self.work.slice(&begun.left).first();
        let change = first.map_or(0, |pass| other.change(pass.kit, self.work.tool(pass), &self.work.changes));
        let begins = self.starts.first().copied().unwrap_or(state.now).saturating_sub(change);
        // Where the airbrush can't be stripped behind what was begun, there must be time for it before.
        let until = (begins + limit).saturating_sub(end);
        Room { until, stripped: strips, single: true, strip_first: strips && limit < end }
    }

    /// What could be done of a bundle now, if anything.
    fn choice(&mut self, state: &State, at: usize, room: Room) -> Option<Choice> {
        let ready = Ready { work: self.work, state };
        let bundle = self.work.bundles.get(at)?;
        if room.single && bundle.passes.len() > 1 {
            return None;
        }
        let pass = self.work.passes.get(bundle.passes.start)?;
        let done = state.done.get(bundle.passes.start).copied()?;
        let within = ready.available(&bundle.passes, done);
        let left = self.work.models_of(pass) - done;
        if within == 0 || (bundle.whole && within < left) {
            return None;
        }
        let strips = !room.stripped && (state.hands.airbrush.is_some() || self.work.sprays(&bundle.passes));
        let limit = room.until.checked_sub(if strips { self.work.changes.strip } else { 0 })?;
        let models = if bundle.passes.len() == 1 {
            ready.single(pass, done, within, limit)?
        } else {
            ready.several(&bundle.passes, (done, within), limit, &mut self.starts)?
        };
        if bundle.whole && models < left {
            return None;
        }
        Some(Choice { bundle: at, models, score: self.score(ready, at, pass, models) })
    }

    fn score(&self, ready: Ready<'_>, bundle: usize, pass: &Pass, models: u32) -> (bool, Seconds) {
        let kept = ready.change(pass) == 0;
        let begins_spraying = self.work.tool(pass) == Tool::Airbrush && ready.state.hands.airbrush.is_none();
        let worth = !begins_spraying || pass.each * Seconds::from(models) >= self.rule.worth_spraying;
        let weight = self.rule.weights.get(bundle).copied().unwrap_or_default();
        (worth, weight + if kept { self.rule.keep } else { 0 })
    }
}
