//! When the models of every pass can be done at the earliest, and when they must be at the latest.
//!
//! A pass is followed at the quarters of its models: so many of them are done when so many have left the passes before,
//! whichever they are. What must be on one evening begins on one that holds it whole.

use super::Seconds;
use super::calendar::{Calendar, Grain};
use super::crowd::{Crowds, Heap, Job, Pile, ends};
use super::hands::Tool;
use super::workload::{Pass, Workload};

/// Into so many parts a pass is cut.
const PARTS: u32 = 8;

/// Some models of a pass, counted from zero.
#[derive(Debug, Clone, Copy)]
pub(super) struct Part {
    /// Which part, from 1.
    pub(super) number: usize,
    pub(super) from: u32,
    pub(super) to: u32,
}

impl Workload {
    /// The parts of a pass; passes of one unit are cut at the same models.
    pub(super) fn parts(&self, pass: &Pass) -> Vec<Part> {
        let models = self.models_of(pass).max(1);
        let parts = PARTS.min(models);
        let cut = |part: u32| u32::try_from(u64::from(models) * u64::from(part) / u64::from(parts)).unwrap_or(models);
        (1..=parts).map(|part| Part { number: part as usize, from: cut(part - 1), to: cut(part) }).collect()
    }

    /// Whether all models of a pass are done in one run on one evening.
    fn in_one_run(&self, pass: &Pass) -> bool {
        let run = self.bundles.get(pass.bundle).and_then(|bundle| bundle.run);
        run.is_some_and(|fits| fits >= self.models_of(pass))
    }

    /// What an evening loses before and after a pass: a tool is made ready first, and an airbrush put away in the end.
    fn margins(&self, pass: &Pass) -> (Seconds, Seconds) {
        let tool = self.tool(pass);
        (self.changes.whole(tool), if tool == Tool::Airbrush { self.changes.strip } else { 0 })
    }

    /// How a pass lies in an evening.
    fn grain(&self, pass: &Pass) -> Grain {
        let (lead, trail) = self.margins(pass);
        Grain { lead, trail, turn: pass.each }
    }
}

/// The earliest moments.
#[derive(Debug)]
pub(super) struct Heads {
    /// For each pass when its first model is begun with, and when each of its parts is done.
    moments: Vec<Vec<Seconds>>,
}

/// What a bound is calculated from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Given<'a> {
    pub(super) work: &'a Workload,
    pub(super) calendar: &'a Calendar,
    pub(super) crowds: &'a Crowds,
}

impl Heads {
    /// The earliest moments of all passes, if nothing else were to be done.
    pub(super) fn of(given: Given<'_>) -> Self {
        let mut heads = Self { moments: Vec::with_capacity(given.work.passes.len()) };
        for (at, pass) in given.work.passes.iter().enumerate() {
            let moments = heads.of_pass(given, at, pass);
            heads.moments.push(moments);
        }
        heads
    }

    fn of_pass(&self, given: Given<'_>, at: usize, pass: &Pass) -> Vec<Seconds> {
        let Given { work, calendar, .. } = given;
        let (lead, trail) = work.margins(pass);
        let begin = |earliest: Seconds, takes: Seconds| calendar.begin(earliest, (lead, takes, trail));
        let (models, parts) = (work.models_of(pass), work.parts(pass));
        let first = begin(self.ready(work, pass, 0).max(self.crowd(given, at, (1, 0)).0), pass.each);
        // When the last model of a part may be done, by what leads to it.
        let by_others = |part: &Part| {
            let (ready, done) = self.crowd(given, at, (part.to, first));
            (begin(self.ready(work, pass, part.number).max(ready), pass.each) + pass.each).max(done)
        };
        if work.in_one_run(pass) {
            let turn = |part: &Part| pass.each * Seconds::from(part.to);
            let starts = parts.iter().map(|part| by_others(part).saturating_sub(turn(part)));
            let start = begin(starts.fold(first, Seconds::max), pass.each * Seconds::from(models));
            return std::iter::once(start).chain(parts.iter().map(|part| start + turn(part))).collect();
        }
        let mut moments = vec![first];
        for part in &parts {
            let before = moments.last().copied().unwrap_or(first);
            let own = calendar.through(before, pass.each * Seconds::from(part.to - part.from), work.grain(pass));
            moments.push(own.max(by_others(part)));
        }
        moments
    }

    /// When a model of a pass can be begun with by the passes before, if it is the last of a part there; 0: the first model.
    fn ready(&self, work: &Workload, pass: &Pass, part: usize) -> Seconds {
        let after = pass.links.iter().filter_map(|link| {
            let other = work.passes.get(link.pass)?;
            let (parts, way) = (work.parts(other).len(), work.way(pass, *link));
            Some(match part {
                // Nothing comes between the models of one run.
                0 if work.in_one_run(other) => {
                    (self.begin(link.pass, 1) + other.each + way).max(self.done(link.pass, parts))
                }
                0 => self.begin(link.pass, 1) + other.each + way,
                _ => self.done(link.pass, part) + way,
            })
        });
        after.max().unwrap_or_default()
    }

    /// By all the work that leads to a pass and is done by one pair of hands: when the last of so many models may be begun
    /// with, and done, if its own first model is begun at a moment.
    fn crowd(&self, given: Given<'_>, at: usize, (models, first): (u32, Seconds)) -> (Seconds, Seconds) {
        let Given { work, calendar, crowds } = given;
        let heap_of = |at: usize, way: Seconds, limit: Seconds| {
            let pass = work.passes.get(at)?;
            let takes = pass.each * Seconds::from(models);
            Some((pass, Heap { limit, takes, way, grain: work.grain(pass), changes: 0 }))
        };
        let Some((_, own)) = heap_of(at, 0, first) else { return (0, 0) };
        let mut jobs = vec![Job { from: calendar.worked(first), takes: own.takes, way: None }];
        let mut pile = Pile::new(work, Ord::min);
        let (mut ready, mut done) = (0, 0);
        for kin in crowds.before(at).rev() {
            let Some((pass, one)) = heap_of(kin.pass, kin.way, self.begin(kin.pass, 1)) else { continue };
            jobs.push(Job { from: calendar.worked(one.limit), takes: one.takes, way: Some(one.way) });
            let all = pile.add(pass, one);
            ready = ready.max(all.earliest(calendar));
            done = done.max(all.joined(own, Ord::min).earliest(calendar));
        }
        ends(jobs, |end, way| match way {
            Some(way) => ready = ready.max(calendar.moment(end) + way),
            None => done = done.max(calendar.moment(end)),
        });
        (ready, done)
    }

    /// When a part of a pass can be begun with.
    pub(super) fn begin(&self, pass: usize, part: usize) -> Seconds {
        self.done(pass, part - 1)
    }

    fn done(&self, pass: usize, part: usize) -> Seconds {
        self.moments.get(pass).and_then(|moments| moments.get(part)).copied().unwrap_or_default()
    }
}

/// The latest moments, for an end.
#[derive(Debug)]
pub(super) struct Due {
    /// For each pass when each of its parts must be done.
    moments: Vec<Vec<Seconds>>,
}

impl Due {
    /// The latest moments of all passes; `None` where the end is too early for a chain.
    pub(super) fn of(given: Given<'_>, end: Seconds) -> Option<Self> {
        let work = given.work;
        // Behind the last spraying the airbrush is stripped before all is over.
        let last = |pass: &Pass| end.checked_sub(work.margins(pass).1);
        let all = work.passes.iter().map(|pass| Some(vec![last(pass)?; work.parts(pass).len()]));
        let mut due = Self { moments: all.collect::<Option<_>>()? };
        for (at, pass) in work.passes.iter().enumerate().rev() {
            let begins = due.settle(given, at, pass)?;
            let first = work.parts(pass).first().map_or(1, |part| part.to);
            let first = begins.first()?.checked_sub(pass.each * Seconds::from(first - 1));
            for link in &pass.links {
                let other = due.moments.get_mut(link.pass)?;
                for (due, begin) in other.iter_mut().zip(&begins) {
                    *due = (*due).min(begin.checked_sub(work.way(pass, *link))?);
                }
                // Nothing comes between the models of one run.
                if work.passes.get(link.pass).is_some_and(|other| work.in_one_run(other)) {
                    let last = other.last_mut()?;
                    *last = (*last).min(first?);
                }
            }
        }
        Some(due)
    }

    /// Settles when the parts of a pass must be done, when all that follow it are settled; gives when the last model of
    /// each must be begun with.
    fn settle(&mut self, given: Given<'_>, at: usize, pass: &Pass) -> Option<Vec<Seconds>> {
        let Given { work, calendar, .. } = given;
        let (lead, trail) = work.margins(pass);
        let parts = work.parts(pass);
        let mut begins = vec![0; parts.len()];
        let mut next: Option<(Seconds, u32)> = None;
        for (part, begin) in parts.iter().zip(&mut begins).rev() {
            let mut due = self.by(at, part.number).min(self.crowd(given, at, part.to)?);
            if let Some((later, models)) = next {
                let takes = pass.each * Seconds::from(models);
                due = due.min(calendar.back_through(later, takes, work.grain(pass))?);
            }
            *begin = calendar.begin_by(due, (lead, pass.each, trail))?;
            due = *begin + pass.each;
            *self.moments.get_mut(at)?.get_mut(part.number - 1)? = due;
            next = Some((due, part.to - part.from));
        }
        Some(begins)
    }

    /// When a model of a pass, counted from 1, must be done, by all the work on it and on those after it.
    fn crowd(&self, given: Given<'_>, at: usize, model: u32) -> Option<Seconds> {
        let Given { work, calendar, crowds } = given;
        let left = work.passes.get(at).map_or(0, |pass| work.models_of(pass)).saturating_sub(model);
        let heap_of = |at: usize, way: Seconds, models: u32| {
            let pass = work.passes.get(at)?;
            let takes = pass.each * Seconds::from(models);
            Some((pass, Heap { limit: self.last(at), takes, way, grain: work.grain(pass), changes: 0 }))
        };
        let end = crowds.after(at).map(|kin| self.last(kin.pass)).chain([self.last(at)]).max()?;
        let end = calendar.worked(end);
        let job = |heap: &Heap| Job { from: end - calendar.worked(heap.limit), takes: heap.takes, way: Some(heap.way) };
        let (_, own) = heap_of(at, 0, left)?;
        let mut jobs = vec![Job { way: None, ..job(&own) }];
        let mut pile = Pile::new(work, Ord::max);
        let mut latest = Some(Seconds::MAX);
        let mut at_most = |moment: Option<Seconds>| latest = latest.zip(moment).map(|(latest, one)| latest.min(one));
        for kin in crowds.after(at) {
            let (pass, one) = heap_of(kin.pass, kin.way, left + 1)?;
            jobs.push(job(&one));
            let all = pile.add(pass, one);
            at_most(all.latest(calendar));
            at_most(all.joined(own, Ord::max).latest(calendar));
        }
        ends(jobs, |reached, way| {
            let begin = end.checked_sub(reached).map(|begin| calendar.latest(begin));
            at_most(begin.and_then(|begin| begin.checked_sub(way.unwrap_or_default())));
        });
        latest
    }

    /// When a part of a pass must be done.
    pub(super) fn by(&self, pass: usize, part: usize) -> Seconds {
        self.moments.get(pass).and_then(|moments| moments.get(part - 1)).copied().unwrap_or_default()
    }

    /// When the last model of a pass must be done.
    pub(super) fn last(&self, pass: usize) -> Seconds {
        self.moments.get(pass).and_then(|moments| moments.last()).copied().unwrap_or_default()
    }
}
