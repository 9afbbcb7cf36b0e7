//! What has been laid so far, what the time is, and what the hands hold.

use std::ops::Range;

use crate::plan::Seconds;
use crate::plan::calendar::Calendar;
use crate::plan::hands::{Hands, Tool};
use crate::plan::workload::Workload;

/// One stretch of work: a pass over some models, or making tools ready.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::plan) enum Deed {
    /// A pass over models, from the first to before the last, counted from zero.
    Paint { pass: usize, from: u32, to: u32 },
    /// Making a kit ready.
    Ready { kit: usize, rinse: bool },
    /// Stripping the airbrush: to put it away, or before a kit that needs another cleaner.
    Strip {
        /// What goes into it next.
        next: Option<usize>,
    },
}

/// A stretch of work and when it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::plan) struct Stretch {
    pub(in crate::plan) evening: usize,
    pub(in crate::plan) start: Seconds,
    pub(in crate::plan) end: Seconds,
    pub(in crate::plan) deed: Deed,
}

/// A schedule in the making.
#[derive(Debug, Clone)]
pub(super) struct State {
    /// Which evening it is.
    pub(super) evening: usize,
    /// The moment at which the hands are free.
    pub(super) now: Seconds,
    /// What the hands hold.
    pub(super) hands: Hands,
    /// How many models each pass has done.
    pub(super) done: Vec<u32>,
    /// The same in the goes in which they were done.
    pub(super) chunks: Vec<Vec<Chunk>>,
    /// The bundles that are not begun for all their models.
    pub(super) open: Vec<usize>,
    /// What must be gone on with this evening, in an order in which it all ends in time.
    pub(super) begun: Vec<Begun>,
    /// All stretches of work, in order.
    pub(super) stretches: Vec<Stretch>,
    /// Time spent on changing tools.
    pub(super) changing: Seconds,
}

/// Models of a pass that were done in one go.
#[derive(Debug, Clone, Copy)]
pub(super) struct Chunk {
    pub(super) from: u32,
    pub(super) to: u32,
    pub(super) start: Seconds,
}

/// A bundle that was begun and must be ended this evening.
#[derive(Debug, Clone)]
pub(super) struct Begun {
    /// Its passes that are still to do.
    pub(super) left: Range<usize>,
    /// The models that it was begun for.
    pub(super) models: Range<u32>,
}

impl State {
    /// Nothing is done, and the first evening begins.
    pub(super) fn new(work: &Workload, calendar: &Calendar) -> Self {
        Self {
            evening: 0,
            now: calendar.start(0),
            hands: Hands::default(),
            done: vec![0; work.passes.len()],
            chunks: vec![Vec::new(); work.passes.len()],
            open: (0..work.bundles.len()).collect(),
            begun: Vec::new(),
            stretches: Vec::with_capacity(work.passes.len() * 2),
            changing: 0,
        }
    }

    /// Whether all is done.
    pub(super) fn is_done(&self) -> bool {
        self.open.is_empty() && self.begun.is_empty()
    }

    /// Lays a pass over models, not before a moment, with what it takes to make the tool ready before it.
    pub(super) fn paint(&mut self, work: &Workload, at: usize, models: Range<u32>, not_before: Seconds) {
        let Some(pass) = work.passes.get(at) else { return };
        let tool = work.tool(pass);
        let change = work.change(self.hands, pass);
        if change.strip > 0 {
            let end = self.now + change.strip;
            self.push(self.now, end, Deed::Strip { next: Some(pass.kit) });
            self.now = end;
        }
        let start = not_before.max(self.now + change.ready);
        if change.ready > 0 {
            let rinse = tool == Tool::Airbrush && self.hands.airbrush.is_some();
            self.push(start - change.ready, start, Deed::Ready { kit: pass.kit, rinse });
        }
        self.changing += change.takes();
        let end = start + pass.each * Seconds::from(models.end - models.start);
        self.push(start, end, Deed::Paint { pass: at, from: models.start, to: models.end });
        if let (Some(done), Some(chunks)) = (self.done.get_mut(at), self.chunks.get_mut(at)) {
            *done = models.end;
            chunks.push(Chunk { from: models.start, to: models.end, start });
        }
        self.hands = self.hands.with(pass.kit, tool);
        self.now = end;
    }

    /// Strips the airbrush, if one is set up.
    pub(super) fn strip(&mut self, work: &Workload) {
        if self.hands.airbrush.take().is_some() && work.changes.strip > 0 {
            let start = self.now;
            self.now += work.changes.strip;
            self.push(start, self.now, Deed::Strip { next: None });
            self.changing += work.changes.strip;
        }
    }

    /// Begins another evening, with nothing in the hands.
    pub(super) fn turn_to(&mut self, evening: usize, calendar: &Calendar) {
        self.evening = evening;
        self.now = calendar.start(evening);
        self.hands = Hands::default();
    }

    fn push(&mut self, start: Seconds, end: Seconds, deed: Deed) {
        self.stretches.push(Stretch { evening: self.evening, start, end, deed });
    }
}
