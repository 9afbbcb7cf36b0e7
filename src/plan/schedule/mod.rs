//! The list schedule: at every moment the best of what is ready.
//!
//! Three parts. [`state`] is what has been laid, the time, and what the hands hold; it alone changes.
//! [`readiness`] reads it: what may be begun when, and over how many models. [`choice`] weighs what is ready and takes the
//! best. The loop here goes on with what was begun, begins what was chosen, or waits.

mod choice;
mod readiness;
mod state;
mod tidy;

use super::Seconds;
use super::calendar::{Calendar, MOST_EVENINGS};
use super::workload::Workload;
use choice::{Choice, Chooser};
use readiness::{Ready, Room};
use state::{Begun, State};
pub(super) use tidy::tidy;

pub(super) use choice::Rule;
pub(super) use state::{Deed, Stretch};

/// A schedule of everything.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Schedule {
    pub(super) stretches: Vec<Stretch>,
    /// When the last stretch ends.
    pub(super) finish: Seconds,
    /// Time spent on changing tools.
    pub(super) changing: Seconds,
    /// How many looks it took to make, for the search to know what it may spend.
    pub(super) looks: u64,
}

/// Makes a schedule; `None` where it would take more than [`MOST_EVENINGS`].
pub(super) fn schedule(work: &Workload, calendar: &Calendar, rule: &Rule) -> Option<Schedule> {
    let mut scheduler =
        Scheduler { work, calendar, state: State::new(work, calendar), chooser: Chooser::new(work, rule) };
    while !scheduler.state.is_done() {
        scheduler.act()?;
    }
    scheduler.state.strip(work);
    let State { stretches, changing, .. } = scheduler.state;
    let finish = stretches.iter().map(|stretch| stretch.end).max().unwrap_or_default();
    Some(Schedule { stretches, finish, changing, looks: scheduler.chooser.looks })
}

struct Scheduler<'a> {
    work: &'a Workload,
    calendar: &'a Calendar,
    state: State,
    chooser: Chooser<'a>,
}

impl Scheduler<'_> {
    /// Does the next thing: goes on with what was begun, begins the best of what is ready, or waits.
    fn act(&mut self) -> Option<()> {
        if !self.state.begun.is_empty() {
            return self.go_on();
        }
        let room = Room::until(self.calendar.end(self.state.evening));
        let (best, later) = self.chooser.best(&self.state, room);
        match best {
            Some(choice) => self.take(choice),
            None => self.wait(room.until, later)?,
        }
        Some(())
    }

    fn ready(&self) -> Ready<'_> {
        Ready { work: self.work, state: &self.state }
    }

    /// Goes on with what was begun, and fills the time until that can be, unless nothing may come between.
    fn go_on(&mut self) -> Option<()> {
        let until = self.calendar.end(self.state.evening);
        self.chooser.put_first(&mut self.state, until);
        let Begun { left, models } = self.state.begun.first()?.clone();
        let pass = self.work.passes.get(left.start)?;
        let ready = self.ready().earliest(pass, models.clone()).unwrap_or(self.state.now);
        if !pass.unbroken && ready > self.ready().soon(pass) {
            let room = self.chooser.room_beside(&self.state, until);
            let room = if self.ready().stays(pass, ready) { room.between_coats(ready) } else { room };
            if let (Some(choice), _) = self.chooser.best(&self.state, room) {
                self.take(choice);
                return Some(());
            }
            if room.strip_first {
                self.state.strip(self.work);
                return Some(());
            }
        }
        self.state.paint(self.work, left.start, models, ready);
        match self.state.begun.first_mut().filter(|_| left.len() > 1) {
            Some(begun) => begun.left.start += 1,
            None => {
                self.state.begun.remove(0);
            }
        }
        Some(())
    }

    /// Begins what was chosen.
    fn take(&mut self, choice: Choice) {
        let Some(bundle) = self.work.bundles.get(choice.bundle) else { return };
        let end = self.calendar.end(self.state.evening);
        if self.state.hands.airbrush.is_some() && !self.work.sprays(&bundle.passes) && !self.ready().sprays_by(end) {
            self.state.strip(self.work);
            return;
        }
        let first = bundle.passes.start;
        let from = self.state.done.get(first).copied().unwrap_or_default();
        let models = from..from + choice.models;
        self.state.paint(self.work, first, models.clone(), self.state.now);
        let left = first + 1..bundle.passes.end;
        if !left.is_empty() {
            self.state.begun.insert(0, Begun { left, models: models.clone() });
        }
        if models.end >= self.work.passes.get(first).map_or(0, |pass| self.work.models_of(pass)) {
            self.state.open.retain(|open| *open != choice.bundle);
        }
    }

    /// Waits until more is ready this evening, if that is soon enough, or for the next evening on which something is.
    fn wait(&mut self, end: Seconds, later: Option<Seconds>) -> Option<()> {
        if self.state.hands.airbrush.is_some() && !self.ready().sprays_by(end) {
            self.state.strip(self.work);
            return Some(());
        }
        if let Some(later) = later.filter(|later| later - self.state.now <= self.chooser.patience()) {
            self.state.now = later;
            return Some(());
        }
        self.state.strip(self.work);
        let evening = self.calendar.evening_at(self.ready().ever()?).max(self.state.evening + 1);
        self.state.turn_to(evening, self.calendar);
        (evening < MOST_EVENINGS).then_some(())
    }
}
