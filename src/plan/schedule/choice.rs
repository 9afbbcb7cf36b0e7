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
    /// What it is worth to go on with what was begun: the next coat, the rest of the models, what comes under a mask.
    pub(in crate::plan) finish: Seconds,
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
        Self { weights, keep: 0, finish: 0, worth_spraying: 0, least_piece: 0, patience: Seconds::MAX }
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
            let Some((pass, rank)) = self.worth(ready, *at, offer, room) else { continue };
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
    pub(super) fn room_beside(&mut self, state: &State, end_of_evening: Seconds) -> Room {
        let airbrush_taken = state.begun.iter().any(|begun| self.work.sprays(&begun.left));
        let stripped = state.hands.airbrush.is_some() || airbrush_taken;
        let (begins, over) = self.laid_out(state, Hands { brush: None, ..state.hands }, &state.begun);
        // Where the airbrush can't be stripped after what was begun, there must be time for it before.
        let until = (begins + end_of_evening).saturating_sub(over);
        let strip_first = state.hands.airbrush.is_some() && !airbrush_taken && over > end_of_evening;
        Room { until, stripped, beside: true, airbrush_taken, strip_first, short: false }
    }

    /// When what was begun is taken up with these hands, and when all of it is over and the airbrush stripped, if one thing
    /// is ended after the other.
    fn laid_out(&mut self, state: &State, mut hands: Hands, begun: &[Begun]) -> (Seconds, Seconds) {
        let (work, ready) = (self.work, Ready { work: self.work, state });
        let airbrush = hands.airbrush.is_some() || begun.iter().any(|begun| work.sprays(&begun.left));
        let (mut begins, mut end, mut over) = (None, state.now, state.now);
        for one in begun {
            let count = one.models.end - one.models.start;
            let outside = |pass: &Pass| ready.earliest(pass, one.models.clone()).unwrap_or_default();
            let passes = work.slice(&one.left);
            let change = passes.first().map_or(0, |pass| work.change(hands, pass).takes());
            end = work.lay_out(&one.left, count, (end, hands), &mut self.starts, outside);
            begins = begins.or_else(|| self.starts.first().map(|start| start.saturating_sub(change)));
            over = match (work.sprays(&one.left), airbrush) {
                (true, _) => work.stripped(&one.left, count, &self.starts, end),
                (false, true) => end + work.changes.strip,
                (false, false) => end,
            };
            hands = passes.iter().fold(hands, |hands, pass| hands.with(pass.kit, work.tool(pass)));
        }
        (begins.unwrap_or(state.now), over)
    }

    /// Puts what can be gone on with first to the front of what was begun, if all of it still ends in time.
    pub(super) fn put_first(&mut self, state: &mut State, end_of_evening: Seconds) {
        let ready = Ready { work: self.work, state };
        let next = |begun: &Begun| self.work.passes.get(begun.left.start);
        if state.begun.first().and_then(next).is_none_or(|pass| pass.unbroken) {
            return;
        }
        let goes_on = |begun: &Begun| {
            let pass = next(begun)?;
            Some(ready.earliest(pass, begun.models.clone())?.max(ready.soon(pass)))
        };
        let soonest = state.begun.iter().enumerate().min_by_key(|(_, begun)| goes_on(begun).unwrap_or(Seconds::MAX));
        let Some(at) = soonest.map(|(at, _)| at).filter(|at| *at > 0) else { return };
        let mut other = state.begun.clone();
        other.get_mut(..=at).into_iter().for_each(|front| front.rotate_right(1));
        let (_, over) = self.laid_out(state, state.hands, &other);
        if over <= end_of_evening {
            state.begun = other;
        }
    }

    /// What an offer is worth; `None` where it is too little to begin with.
    fn worth(&self, ready: Ready<'_>, at: usize, offer: Offer, room: Room) -> Option<(&'a Pass, (bool, Seconds))> {
        let bundle = self.work.bundles.get(at)?;
        let pass = self.work.passes.get(bundle.passes.start)?;
        let takes = pass.each * Seconds::from(offer.models);
        let done = ready.state.done.get(bundle.passes.start).copied()?;
        let least = if room.short { self.work.habits.least_piece } else { self.rule.least_piece };
        if takes < least && done + offer.models < self.work.models_of(pass) {
            return None;
        }
        let kept = ready.soon(pass) == ready.state.now;
        let begins_spraying = self.work.tool(pass) == Tool::Airbrush && ready.state.hands.airbrush.is_none();
        let worth = !begins_spraying || takes >= self.rule.worth_spraying;
        let weight = self.rule.weights.get(at).copied().unwrap_or_default();
        let goes_on = self.rule.finish > 0 && self.work.goes_on(bundle, &ready.state.done);
        let more = |is: bool, worth: Seconds| if is { worth } else { 0 };
        Some((pass, (worth, weight + more(kept, self.rule.keep) + more(goes_on, self.rule.finish))))
    }
}
