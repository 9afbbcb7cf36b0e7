//! What comes before a pass on the same models, and after it, crowds at the desk: one pair of hands does one after the other.
//!
//! For every pass, all passes that lead to it must be done with its models first. Whatever their order, they take the time
//! of their work together, from when the first of them may begin, and behind the last of them lies the shortest of the
//! ways that remain. Two sums follow, and both hold backwards as well. No order beats one that always goes on with what
//! has the longest way, and that may be cut anywhere (Jackson's rule, 1955, with work that may be split). And no evening
//! holds more of several passes than whole turns of theirs, beside making the quickest of their tools ready.

use std::collections::BinaryHeap;

use super::Seconds;
use super::calendar::{Calendar, Grain};
use super::hands::Tool;
use super::workload::{Pass, Workload};

/// In units of more passes than this it is not calculated: the other bounds must do.
const MOST_PASSES: usize = 120;

/// Another pass that leads to a pass, or follows it, and the least time between the two on the clock.
#[derive(Debug, Clone, Copy)]
pub(super) struct Kin {
    pub(super) pass: usize,
    pub(super) way: Seconds,
}

/// Whatever leads to each pass, and whatever follows it, by their places in the list.
#[derive(Debug)]
pub(super) struct Crowds {
    before: Vec<Vec<Kin>>,
    after: Vec<Vec<Kin>>,
}

impl Crowds {
    /// All kin of all passes.
    pub(super) fn of(work: &Workload) -> Self {
        let mut sizes = vec![0; work.models.len()];
        for pass in &work.passes {
            sizes.iter_mut().skip(pass.unit).take(1).for_each(|size| *size += 1);
        }
        let mut before: Vec<Vec<Kin>> = Vec::with_capacity(work.passes.len());
        let mut after: Vec<Vec<Kin>> = vec![Vec::new(); work.passes.len()];
        for (at, pass) in work.passes.iter().enumerate() {
            let few = sizes.get(pass.unit).is_some_and(|size| *size <= MOST_PASSES);
            let mut ways: Vec<Kin> = Vec::new();
            for link in pass.links.iter().filter(|_| few) {
                let each = work.passes.get(link.pass).map_or(0, |other| other.each);
                let kin = before.get(link.pass).map(Vec::as_slice).unwrap_or_default();
                let way = work.way(pass, *link);
                ways.extend(kin.iter().map(|kin| Kin { pass: kin.pass, way: kin.way + each + way }));
                ways.push(Kin { pass: link.pass, way });
            }
            ways.sort_unstable_by(|a, b| a.pass.cmp(&b.pass).then(b.way.cmp(&a.way)));
            ways.dedup_by_key(|kin| kin.pass);
            for kin in &ways {
                after.iter_mut().skip(kin.pass).take(1).for_each(|list| list.push(Kin { pass: at, way: kin.way }));
            }
            before.push(ways);
        }
        Self { before, after }
    }

    /// What leads to a pass.
    pub(super) fn before(&self, pass: usize) -> impl DoubleEndedIterator<Item = Kin> + use<'_> {
        self.before.get(pass).into_iter().flatten().copied()
    }

    /// What follows a pass.
    pub(super) fn after(&self, pass: usize) -> impl DoubleEndedIterator<Item = Kin> + use<'_> {
        self.after.get(pass).into_iter().flatten().copied()
    }
}

/// Work of several passes that must all be done before something, or after it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Heap {
    /// When the first of it may begin, or the last of it must be done.
    pub(super) limit: Seconds,
    pub(super) takes: Seconds,
    /// The least time between it and what it leads to or follows.
    pub(super) way: Seconds,
    pub(super) grain: Grain,
    /// What it takes beside to take up all its kits but the dearest, which may be in the hand already.
    pub(super) changes: Seconds,
}

impl Heap {
    /// Both together, with the earlier or the later limit.
    pub(super) fn joined(self, other: Self, limit: fn(Seconds, Seconds) -> Seconds) -> Self {
        Self {
            limit: limit(self.limit, other.limit),
            takes: self.takes + other.takes,
            way: self.way.min(other.way),
            grain: self.grain.with(other.grain),
            changes: self.changes.max(other.changes),
        }
    }

    /// When what it leads to may begin at the earliest.
    pub(super) fn earliest(self, calendar: &Calendar) -> Seconds {
        let turns = calendar.through(self.limit, self.takes, self.grain);
        turns.max(calendar.through(self.limit, self.takes + self.changes, self.grain.loose())) + self.way
    }

    /// When what it follows must be done at the latest.
    pub(super) fn latest(self, calendar: &Calendar) -> Option<Seconds> {
        let turns = calendar.back_through(self.limit, self.takes, self.grain)?;
        let changes = calendar.back_through(self.limit, self.takes + self.changes, self.grain.loose())?;
        turns.min(changes).checked_sub(self.way)
    }
}

/// Passes that are heaped up one after the other.
#[derive(Debug)]
pub(super) struct Pile<'a> {
    work: &'a Workload,
    limit: fn(Seconds, Seconds) -> Seconds,
    heap: Option<Heap>,
    kits: Vec<usize>,
    changes: Seconds,
    dearest: Seconds,
}

impl<'a> Pile<'a> {
    /// Nothing yet; the earlier or the later limit of what comes is to hold.
    pub(super) fn new(work: &'a Workload, limit: fn(Seconds, Seconds) -> Seconds) -> Self {
        Self { work, limit, heap: None, kits: Vec::new(), changes: 0, dearest: 0 }
    }

    /// All that was heaped up, with one more.
    pub(super) fn add(&mut self, pass: &Pass, one: Heap) -> Heap {
        if !self.kits.contains(&pass.kit) {
            self.kits.push(pass.kit);
            let tool = self.work.tool(pass);
            let change = if tool == Tool::Airbrush { self.work.changes.rinse } else { self.work.changes.whole(tool) };
            self.changes += change;
            self.dearest = self.dearest.max(change);
        }
        let all = self.heap.map_or(one, |heap| heap.joined(one, self.limit));
        let all = Heap { changes: self.changes - self.dearest, ..all };
        self.heap = Some(all);
        all
    }
}

/// Work that may begin at a time at the desk, and is followed by a way; without one it is what all the others lead to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Job {
    pub(super) from: Seconds,
    pub(super) takes: Seconds,
    pub(super) way: Option<Seconds>,
}

/// When the hands are through with jobs, each time one of them ends: the time at the desk, and the way behind it. The one
/// with the longest way is always gone on with.
pub(super) fn ends(mut jobs: Vec<Job>, mut end: impl FnMut(Seconds, Option<Seconds>)) {
    jobs.sort_unstable_by_key(|job| job.from);
    let mut coming = jobs.into_iter().peekable();
    let mut open: BinaryHeap<(Option<Seconds>, Seconds)> = BinaryHeap::new();
    let mut now = 0;
    loop {
        while let Some(job) = coming.next_if(|job| job.from <= now) {
            open.push((job.way, job.takes));
        }
        let next = coming.peek().map(|job| job.from);
        match (open.pop(), next) {
            (None, None) => break,
            (None, Some(next)) => now = next,
            (Some((way, takes)), Some(next)) if now + takes > next => {
                open.push((way, takes - (next - now)));
                now = next;
            }
            (Some((way, takes)), _) => {
                now += takes;
                end(now, way);
            }
        }
    }
}
