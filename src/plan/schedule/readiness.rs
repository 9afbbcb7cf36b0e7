//! What may be begun when, and over how many models, by what has been laid.

use std::ops::Range;

use super::state::State;
use crate::plan::Seconds;
use crate::plan::workload::{Link, Pass, Workload};

/// A look at a state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ready<'a> {
    pub(super) work: &'a Workload,
    pub(super) state: &'a State,
}

impl Ready<'_> {
    /// What it takes to get the tool of a pass ready.
    pub(super) fn change(&self, pass: &Pass) -> Seconds {
        self.state.hands.change(pass.kit, self.work.tool(pass), &self.work.changes)
    }

    /// How many models behind those that are done all earlier passes outside a bundle have done.
    pub(super) fn available(&self, range: &Range<usize>, done: u32) -> u32 {
        let passes = self.work.slice(range);
        let all = passes.first().map_or(0, |pass| self.work.models_of(pass));
        let links = passes.iter().flat_map(|pass| &pass.links).filter(|link| !range.contains(&link.pass));
        let ready = links.filter_map(|link| self.state.done.get(link.pass)).fold(all, |least, one| least.min(*one));
        ready.saturating_sub(done)
    }

    /// How many models a pass can go over from now on, without a stop and before a moment.
    pub(super) fn single(&self, pass: &Pass, done: u32, within: u32, limit: Seconds) -> Option<u32> {
        let start = self.state.now + self.change(pass);
        let room = limit.checked_sub(start)?;
        let fit = room.checked_div(pass.each).map_or(within, |fit| u32::try_from(fit).unwrap_or(u32::MAX).min(within));
        let ready = pass.links.iter().fold(fit, |most, link| self.unhindered(pass, *link, (start, done), most));
        (ready > 0).then_some(ready)
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

    /// How many models a bundle of several passes can take from now on, so that all of it ends before a moment.
    pub(super) fn several(
        &self,
        range: &Range<usize>,
        (done, within): (u32, u32),
        limit: Seconds,
        starts: &mut Vec<Seconds>,
    ) -> Option<u32> {
        let first = self.work.slice(range).first()?;
        let change = self.change(first);
        let mut fits = |models: u32| {
            let outside = |pass: &Pass| self.earliest(pass, done..done + models).unwrap_or_default();
            outside(first) <= self.state.now + change
                && self.work.lay_out(range, models, (self.state.now, self.state.hands), starts, outside) <= limit
        };
        let (mut fit, mut too_many) = (0, within + 1);
        // The whole first: a bundle of all models is asked for nothing less.
        if fits(within) {
            fit = within;
        } else {
            too_many = within;
        }
        while fit + 1 < too_many {
            let middle = fit + (too_many - fit) / 2;
            if fits(middle) { fit = middle } else { too_many = middle }
        }
        (fit > 0).then_some(fit)
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

    /// When a bundle's next model, or all of its models, may be begun with.
    pub(super) fn begin(&self, at: usize) -> Option<Seconds> {
        let bundle = self.work.bundles.get(at)?;
        let pass = self.work.passes.get(bundle.passes.start)?;
        let done = self.state.done.get(bundle.passes.start).copied()?;
        let available = self.available(&bundle.passes, done);
        let count = if bundle.whole { self.work.models_of(pass) - done } else { 1 };
        if available < count {
            return None;
        }
        self.earliest(pass, done..done + count)
    }

    /// Whether more spraying may come before an evening ends.
    pub(super) fn sprays_by(&self, end: Seconds) -> bool {
        let end = end.saturating_sub(self.work.changes.strip);
        let begun = self.state.begun.as_ref().is_some_and(|begun| self.work.sprays(&begun.left));
        let comes = |at: &usize| {
            let bundle = self.work.bundles.get(*at)?;
            let pass = self.work.passes.get(bundle.passes.start)?;
            let all: Seconds = self.work.slice(&bundle.passes).iter().map(|pass| self.work.hands_on(pass)).sum();
            let takes = if bundle.whole { all } else { pass.each };
            let sprays = self.work.sprays(&bundle.passes);
            (sprays && self.begin(*at)? + takes <= end).then_some(())
        };
        begun || self.state.open.iter().any(|at| comes(at).is_some())
    }

    /// When the hands should go on because something is ready: before the end of this evening, and at all.
    pub(super) fn next(&self, end: Seconds) -> (Option<Seconds>, Option<Seconds>) {
        let (mut tonight, mut ever) = (None::<Seconds>, None::<Seconds>);
        let sooner = |slot: &mut Option<Seconds>, at: Seconds| *slot = Some(slot.map_or(at, |best| best.min(at)));
        for bundle in &self.state.open {
            let Some(ready) = self.begin(*bundle) else { continue };
            let pass = self.work.bundles.get(*bundle).and_then(|bundle| self.work.passes.get(bundle.passes.start));
            let wake = ready.saturating_sub(pass.map_or(0, |pass| self.change(pass)));
            if wake > self.state.now && wake < end {
                sooner(&mut tonight, wake);
            }
            sooner(&mut ever, ready);
        }
        (tonight, ever)
    }
}
