//! What may be begun when, and over how many models, by what has been laid.

use std::ops::Range;

use super::state::State;
use crate::plan::Seconds;
use crate::plan::workload::{Bundle, Link, Pass, Workload};

/// What room there is.
#[derive(Debug, Clone, Copy)]
pub(super) struct Room {
    /// Until when.
    pub(super) until: Seconds,
    /// Whether the time to strip the airbrush is taken off already.
    pub(super) stripped: bool,
    /// Whether something was begun that goes on this evening: only single passes and coats of one step may go in.
    pub(super) beside: bool,
    /// Whether the airbrush waits for what was begun: nothing else is sprayed.
    pub(super) airbrush_taken: bool,
    /// Whether the airbrush must be stripped before what was begun goes on.
    pub(super) strip_first: bool,
    /// Whether it lies between two sprayed coats that are minutes apart: no pieces of a few models go in.
    pub(super) short: bool,
}

impl Room {
    /// All the time until a moment.
    pub(super) fn until(until: Seconds) -> Self {
        Self { until, stripped: false, beside: false, airbrush_taken: false, strip_first: false, short: false }
    }

    /// The same between two sprayed coats that are minutes apart: what goes in ends before the next of them may be laid.
    pub(super) fn between_coats(self, ready: Seconds) -> Self {
        Self { until: self.until.min(ready), short: true, ..self }
    }
}

/// What could be done of a bundle this evening: so many models in one go, from a moment on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Offer {
    pub(super) start: Seconds,
    pub(super) models: u32,
}

/// Models of a bundle: done, left, of those the ones that all before it have done, and how many must go at once.
#[derive(Debug, Clone, Copy)]
struct Count {
    done: u32,
    left: u32,
    within: u32,
    least: u32,
}

/// A look at a state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ready<'a> {
    pub(super) work: &'a Workload,
    pub(super) state: &'a State,
}

impl Ready<'_> {
    /// The first moment at which a pass could be begun, as far as the hands go.
    pub(super) fn soon(&self, pass: &Pass) -> Seconds {
        self.state.now + self.work.change(self.state.hands, pass).takes()
    }

    /// Whether the airbrush stays as it is until a pass may follow: it holds the colour, and to set it up again would take no
    /// less than the wait.
    pub(super) fn stays(&self, pass: &Pass, ready: Seconds) -> bool {
        let again = self.work.changes.airbrush + self.work.changes.strip;
        self.state.hands.airbrush == Some(pass.kit) && ready <= self.state.now + again
    }

    /// When all of a bundle's lot can be begun; `None` where something before one of them is not done.
    fn lot(&self, at: usize) -> Option<Seconds> {
        let lot = self.work.lots.iter().find(|lot| lot.contains(&at));
        let others = lot.into_iter().flatten().filter(|other| **other != at);
        others.filter_map(|other| self.work.bundles.get(*other)).try_fold(0, |latest, other| {
            let first = self.work.slice(&other.passes).first()?;
            let is_begun = self.state.done.get(other.passes.start).is_some_and(|done| *done > 0);
            let begins = if is_begun { 0 } else { self.earliest(first, 0..self.work.models_of(first))? };
            Some(begins.max(latest))
        })
    }

    fn count(&self, bundle: &Bundle) -> Option<Count> {
        let done = self.state.done.get(bundle.passes.start).copied()?;
        let left = self.work.slice(&bundle.passes).first().map_or(0, |pass| self.work.models_of(pass)) - done;
        Some(Count { done, left, within: self.available(&bundle.passes, done), least: bundle.least(left) })
    }

    /// What could be done of a bundle in a room, now or later; `starts` is scratch space.
    pub(super) fn offer(&self, at: usize, room: Room, starts: &mut Vec<Seconds>) -> Option<Offer> {
        let bundle = self.work.bundles.get(at)?;
        let sprays = self.work.sprays(&bundle.passes);
        let begun = |bundle: &Bundle| self.state.begun.iter().any(|begun| bundle.passes.contains(&begun.left.start));
        let goes_in = bundle.passes.len() == 1 || bundle.is_chained() && !begun(bundle);
        if room.beside && !goes_in || room.airbrush_taken && sprays {
            return None;
        }
        let count = self.count(bundle).filter(|count| count.within >= count.least)?;
        let lot = self.lot(at)?;
        let strips = !room.stripped && (self.state.hands.airbrush.is_some() || sprays);
        let limit = room.until.checked_sub(if strips { self.work.changes.strip } else { 0 })?;
        match self.work.slice(&bundle.passes) {
            [pass] => self.single(pass, (count, lot), limit),
            _ => self.several(bundle, (count, lot), limit, starts),
        }
    }

    /// How many models a pass can go over in one go before a moment. Where what dries would cut it into pieces, it begins
    /// so much later that it need not stop.
    fn single(&self, pass: &Pass, (count, lot): (Count, Seconds), limit: Seconds) -> Option<Offer> {
        let soon = self.soon(pass).max(lot);
        let fits = |start: Seconds| {
            let fit = limit.checked_sub(start)?.checked_div(pass.each);
            Some(fit.map_or(count.within, |fit| u32::try_from(fit).unwrap_or(u32::MAX).min(count.within)))
        };
        let fit = fits(soon).filter(|fit| *fit >= count.least)?;
        let at_once = pass.links.iter().fold(fit, |most, link| self.unhindered(pass, *link, (soon, count.done), most));
        if at_once == fit {
            return Some(Offer { start: soon, models: fit });
        }
        // The most models that one go holds before the moment, however late it begins.
        let begin = |models: u32| Some(self.earliest(pass, count.done..count.done + models)?.max(soon));
        let holds = |models: u32| begin(models).is_some_and(|start| start + pass.each * Seconds::from(models) <= limit);
        let later = most(at_once..fit + 1, holds);
        if later < count.least {
            return None;
        }
        if at_once >= count.least && later < count.left && later < 2 * at_once {
            return Some(Offer { start: soon, models: at_once });
        }
        Some(Offer { start: begin(later)?, models: later })
    }

    /// How many models after those that are done all earlier passes outside a bundle have done.
    fn available(&self, range: &Range<usize>, done: u32) -> u32 {
        let passes = self.work.slice(range);
        let all = passes.first().map_or(0, |pass| self.work.models_of(pass));
        let links = passes.iter().flat_map(|pass| &pass.links).filter(|link| !range.contains(&link.pass));
        let ready = links.filter_map(|link| self.state.done.get(link.pass)).fold(all, |least, one| least.min(*one));
        ready.saturating_sub(done)
    }

    /// How many of `most` models, from `first` on, a pass can go over from `start` on before a link holds one up.
    fn unhindered(&self, pass: &Pass, link: Link, (start, first): (Seconds, u32), most: u32) -> u32 {
        let (Some(other), Some(chunks)) = (self.work.passes.get(link.pass), self.state.chunks.get(link.pass)) else {
            return most;
        };
        for chunk in chunks.iter().filter(|chunk| chunk.to > first && chunk.from < first.saturating_add(most)) {
            let from = chunk.from.max(first);
            let to = chunk.to.min(first + most);
            let turn = |model: u32| start + pass.each * Seconds::from(model - first);
            let ready = |model: u32| chunk.start + other.each * Seconds::from(model - chunk.from + 1) + link.rest;
            let Some(spare) = turn(from).checked_sub(ready(from)) else { return from - first };
            // The later models of a slower pass come later than their turn by this much each.
            let slower = other.each.saturating_sub(pass.each);
            let last = spare
                .checked_div(slower)
                .map_or(to - 1, |more| from.saturating_add(u32::try_from(more).unwrap_or(u32::MAX)));
            if last < to - 1 {
                return last + 1 - first;
            }
        }
        most
    }

    /// The same for a bundle of several passes: all of it ends before the moment.
    fn several(
        &self,
        bundle: &Bundle,
        (count, lot): (Count, Seconds),
        limit: Seconds,
        starts: &mut Vec<Seconds>,
    ) -> Option<Offer> {
        let range = &bundle.passes;
        let first = self.work.slice(range).first()?;
        let (at_once, hands, sprays) = (self.soon(first), self.state.hands, self.work.sprays(range));
        let soon = at_once.max(lot);
        let mut fits = |start: Seconds, models: u32| {
            let outside = |pass: &Pass| self.earliest(pass, count.done..count.done + models).unwrap_or_default();
            let from = self.state.now + (start - at_once);
            if outside(first) > start {
                return false;
            }
            let end = self.work.lay_out(range, models, (from, hands), starts, outside);
            let strips = self.work.changes.strip;
            let over = if sprays { self.work.stripped(range, models, starts, end) } else { end + strips };
            end <= limit || (sprays && over <= limit + strips)
        };
        if fits(soon, count.within) {
            return Some(Offer { start: soon, models: count.within });
        }
        let later = self.earliest(first, count.done..count.done + count.within)?;
        if later > soon && fits(later, count.within) {
            return Some(Offer { start: later, models: count.within });
        }
        let fit = most(0..count.within, |models| fits(soon, models));
        if bundle.is_chained() {
            // As for a single pass: what dries cuts it into no pieces.
            let begin = |models: u32| Some(self.earliest(first, count.done..count.done + models)?.max(soon));
            let later = most(fit..count.within, |models| begin(models).is_some_and(|start| fits(start, models)));
            if later > 0 && later >= 2 * fit {
                return Some(Offer { start: begin(later)?, models: later });
            }
        }
        if fit >= count.least {
            return Some(Offer { start: soon, models: fit });
        }
        let later = self.earliest(first, count.done..count.done + count.least)?.max(soon);
        fits(later, count.least).then_some(Offer { start: later, models: count.least })
    }

    /// When a pass may begin over some models, by all that has been done of the passes before it; `None` where one of them
    /// has not been over all these models yet. Links within its own bundle count only once they are laid.
    pub(super) fn earliest(&self, pass: &Pass, models: Range<u32>) -> Option<Seconds> {
        let mut earliest = 0;
        for link in &pass.links {
            let other = self.work.passes.get(link.pass)?;
            let done = self.state.done.get(link.pass).copied()?;
            if done < models.end {
                if other.bundle == pass.bundle {
                    continue;
                }
                return None;
            }
            for chunk in self.state.chunks.get(link.pass)? {
                let from = chunk.from.max(models.start);
                let to = chunk.to.min(models.end);
                if from >= to {
                    continue;
                }
                let ready = |model: u32| {
                    let turn = other.each * Seconds::from(model - chunk.from + 1);
                    let own = pass.each * Seconds::from(model - models.start);
                    (chunk.start + turn + link.rest).saturating_sub(own)
                };
                earliest = earliest.max(ready(from)).max(ready(to - 1));
            }
        }
        Some(earliest)
    }

    /// When a bundle can be gone on with, by what has been laid.
    fn begin(&self, at: usize) -> Option<Seconds> {
        let bundle = self.work.bundles.get(at)?;
        let count = self.count(bundle).filter(|count| count.within >= count.least)?;
        let own = self.earliest(self.work.slice(&bundle.passes).first()?, count.done..count.done + count.least)?;
        Some(own.max(self.lot(at)?))
    }

    /// When the first of what is open can be gone on with, on whatever evening.
    pub(super) fn ever(&self) -> Option<Seconds> {
        self.state.open.iter().filter_map(|bundle| self.begin(*bundle)).min()
    }

    /// Whether more spraying may come before an evening ends.
    pub(super) fn sprays_by(&self, end: Seconds) -> bool {
        let end = end.saturating_sub(self.work.changes.strip);
        let begun = self.state.begun.iter().any(|begun| self.work.sprays(&begun.left));
        let comes = |at: &usize| {
            let bundle = self.work.bundles.get(*at)?;
            let sprays = self.work.sprays(&bundle.passes);
            let least = Seconds::from(self.count(bundle)?.least);
            let takes: Seconds = self.work.slice(&bundle.passes).iter().map(|pass| pass.each * least).sum();
            (sprays && self.begin(*at)?.max(self.state.now) + takes <= end).then_some(())
        };
        begun || self.state.open.iter().any(|at| comes(at).is_some())
    }
}

/// The most models of a range that something holds, where it holds the first and not the end.
fn most(models: Range<u32>, mut holds: impl FnMut(u32) -> bool) -> u32 {
    let (mut fit, mut too_many) = (models.start, models.end);
    while fit + 1 < too_many {
        let middle = fit + (too_many - fit) / 2;
        if holds(middle) { fit = middle } else { too_many = middle }
    }
    fit
}
