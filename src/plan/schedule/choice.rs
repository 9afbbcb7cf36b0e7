//! Which of the things that are ready is taken.

use super::readiness::{Offer, Ready, Room};
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
    /// Less work than this is not begun where it leaves models for another evening.
    pub(in crate::plan) least_piece: Seconds,
    /// A longer wait than this ends the evening.
    pub(in crate::plan) patience: Seconds,
}

impl Rule {
    /// Weights alone: what is ready is done, and waited for.
    pub(in crate::plan) fn plain(weights: Vec<Seconds>) -> Self {
        Self { weights, keep: 0, worth_spraying: 0, least_piece: 0, patience: Seconds::MAX }
    }
}

/// Something that can be done now.
#[derive(Debug, Clone, Copy)]
pub(super) struct Choice {
    pub(super) bundle: usize,
    pub(super) models: u32,
    score: (bool, Seconds),
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

    /// The longest wait that does not end an evening.
    pub(super) fn patience(&self) -> Seconds {
        self.rule.patience
    }

    /// The best of what is ready now and has room; without any, when the hands should go on with what is ready later.
    pub(super) fn best(&mut self, state: &State, room: Room) -> (Option<Choice>, Option<Seconds>) {
        let ready = Ready { work: self.work, state };
        let (mut best, mut later): (Option<Choice>, Option<Seconds>) = (None, None);
        // How soon the hands could go on with what they hold, and what it costs to turn to the best and back.
        let (mut same_colour, mut there_and_back): (Option<Seconds>, Seconds) = (None, 0);
        for at in &state.open {
            let Some(offer) = ready.offer(*at, room, &mut self.starts) else { continue };
            self.looks += 1;
            let Some((pass, rank)) = self.worth(ready, *at, offer) else { continue };
            let wait = offer.start - ready.soon(pass);
            let change = ready.soon(pass) - state.now;
            if wait > 0 {
                if change == 0 {
                    same_colour = Some(same_colour.map_or(wait, |least| least.min(wait)));
                }
                later = Some(later.map_or(wait, |least| least.min(wait)));
            } else if best.is_none_or(|best| rank > best.score) {
                best = Some(Choice { bundle: *at, models: offer.models, score: rank });
                there_and_back = 2 * change;
            }
        }
        // Nobody cleans the airbrush twice to fill three minutes.
        match same_colour.filter(|wait| *wait <= there_and_back) {
            Some(wait) => (None, Some(state.now + wait)),
            None => (best, later.map(|wait| state.now + wait)),
        }
    }

    /// Room for other work until an evening ends, so that what was begun is still ended, whatever brush is in the hand.
    pub(super) fn room_beside(&mut self, state: &State, begun: &Begun, end_of_evening: Seconds) -> Room {
        let ready = Ready { work: self.work, state };
        let count = begun.models.end - begun.models.start;
        let other = Hands { brush: None, ..state.hands };
        let outside = |pass: &Pass| ready.earliest(pass, begun.models.clone()).unwrap_or_default();
        let end = self.work.lay_out(&begun.left, count, (state.now, other), &mut self.starts, outside);
        let airbrush_taken = self.work.sprays(&begun.left);
        let stripped = state.hands.airbrush.is_some() || airbrush_taken;
        let over = match (airbrush_taken, stripped) {
            (true, _) => self.work.stripped(&begun.left, count, &self.starts, end),
            (false, true) => end + self.work.changes.strip,
            (false, false) => end,
        };
        let first = self.work.slice(&begun.left).first();
        let change = first.map_or(0, |pass| self.work.change(other, pass).takes());
        let begins = self.starts.first().copied().unwrap_or(state.now).saturating_sub(change);
        // Where the airbrush can't be stripped after what was begun, there must be time for it before.
        let until = (begins + end_of_evening).saturating_sub(over);
        let strip_first = state.hands.airbrush.is_some() && !airbrush_taken && over > end_of_evening;
        Room { until, stripped, beside: true, airbrush_taken, strip_first }
    }

    /// What an offer is worth; `None` where it is too little to begin with.
    fn worth(&self, ready: Ready<'_>, at: usize, offer: Offer) -> Option<(&'a Pass, (bool, Seconds))> {
        let bundle = self.work.bundles.get(at)?;
        let pass = self.work.passes.get(bundle.passes.start)?;
        let takes = pass.each * Seconds::from(offer.models);
        let done = ready.state.done.get(bundle.passes.start).copied()?;
        if takes < self.rule.least_piece && done + offer.models < self.work.models_of(pass) {
            return None;
        }
        let kept = ready.soon(pass) == ready.state.now;
        let begins_spraying = self.work.tool(pass) == Tool::Airbrush && ready.state.hands.airbrush.is_none();
        let worth = !begins_spraying || takes >= self.rule.worth_spraying;
        let weight = self.rule.weights.get(at).copied().unwrap_or_default();
        Some((pass, (worth, weight + if kept { self.rule.keep } else { 0 })))
    }
}
