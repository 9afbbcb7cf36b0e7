//! The list schedule: at every moment the best of what is ready.

use std::ops::Range;

use super::Seconds;
use super::calendar::Calendar;
use super::hands::{Hands, Tool};
use super::workload::{Link, Pass, Workload};

/// More evenings than this are not planned: five years of two evenings a week.
pub(super) const MOST_EVENINGS: usize = 520;

/// What decides between things that are ready.
#[derive(Debug, Clone)]
pub(super) struct Rule {
    /// The weight of each bundle.
    pub(super) weights: Vec<Seconds>,
    /// What it is worth to go on with the colour in the hand.
    pub(super) keep: Seconds,
    /// Less spraying than this is put off while there is something else to do.
    pub(super) worth_spraying: Seconds,
}

/// One stretch of work: a pass over some models, or making tools ready.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Deed {
    /// A pass over models, from the first to before the last, counted from nought.
    Paint { pass: usize, from: u32, to: u32 },
    /// Making a kit ready.
    Ready { kit: usize, rinse: bool },
    /// Stripping the airbrush.
    Strip,
}

/// A stretch of work and when it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stretch {
    pub(super) evening: usize,
    pub(super) start: Seconds,
    pub(super) end: Seconds,
    pub(super) deed: Deed,
}

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
    let mut desk = Desk::new(work, calendar, rule);
    while !desk.is_done() {
        desk.act()?;
    }
    desk.strip();
    let finish = desk.stretches.iter().map(|stretch| stretch.end).max().unwrap_or_default();
    Some(Schedule { stretches: desk.stretches, finish, changing: desk.changing, looks: desk.looks })
}

/// Models of a pass that were done in one go.
#[derive(Debug, Clone, Copy)]
struct Chunk {
    from: u32,
    to: u32,
    start: Seconds,
}

/// A bundle that was begun and must be ended this evening.
#[derive(Debug, Clone)]
struct Begun {
    left: Range<usize>,
    models: Range<u32>,
}

/// Something that can be done now.
#[derive(Debug, Clone, Copy)]
struct Choice {
    bundle: usize,
    models: u32,
    score: (bool, Seconds),
}

/// What room there is.
#[derive(Debug, Clone, Copy)]
struct Room {
    /// Until when.
    until: Seconds,
    /// Whether the time to strip the airbrush is taken off already.
    stripped: bool,
    /// Whether only single passes may go in.
    single: bool,
    /// Whether the airbrush must be stripped before what was begun goes on.
    strip_first: bool,
}

struct Desk<'a> {
    work: &'a Workload,
    calendar: &'a Calendar,
    rule: &'a Rule,
    evening: usize,
    now: Seconds,
    hands: Hands,
    /// How many models each pass has done, and in which goes.
    done: Vec<u32>,
    chunks: Vec<Vec<Chunk>>,
    open: Vec<usize>,
    begun: Option<Begun>,
    stretches: Vec<Stretch>,
    changing: Seconds,
    looks: u64,
    starts: Vec<Seconds>,
}

impl<'a> Desk<'a> {
    fn new(work: &'a Workload, calendar: &'a Calendar, rule: &'a Rule) -> Self {
        Self {
            work,
            calendar,
            rule,
            evening: 0,
            now: calendar.start(0),
            hands: Hands::default(),
            done: vec![0; work.passes.len()],
            chunks: vec![Vec::new(); work.passes.len()],
            open: (0..work.bundles.len()).collect(),
            begun: None,
            stretches: Vec::with_capacity(work.passes.len() * 2),
            changing: 0,
            looks: 0,
            starts: Vec::new(),
        }
    }

    fn is_done(&self) -> bool {
        self.open.is_empty() && self.begun.is_none()
    }

    /// Does the next thing: goes on with what was begun, begins the best of what is ready, or waits.
    fn act(&mut self) -> Option<()> {
        if let Some(begun) = self.begun.take() {
            self.go_on(begun);
            return Some(());
        }
        let end = self.calendar.end(self.evening);
        match self.best(Room { until: end, stripped: false, single: false, strip_first: false }) {
            Some(choice) => self.take(choice),
            None => self.wait(end)?,
        }
        Some(())
    }

    /// Goes on with a bundle, and fills the time until it can be gone on with.
    fn go_on(&mut self, begun: Begun) {
        let Some(pass) = self.work.passes.get(begun.left.start) else { return };
        let ready = self.earliest(pass, begun.models.clone()).unwrap_or(self.now);
        let change = self.hands.change(pass.kit, self.work.tool(pass), &self.work.changes);
        if ready > self.now + change {
            let room = self.room_beside(&begun);
            if let Some(choice) = self.best(room) {
                self.begun = Some(begun);
                self.take(choice);
                return;
            }
            if room.strip_first {
                self.begun = Some(begun);
                self.strip();
                return;
            }
        }
        self.paint(begun.left.start, begun.models.clone(), ready);
        let left = begun.left.start + 1..begun.left.end;
        self.begun = (!left.is_empty()).then_some(Begun { left, ..begun });
    }

    /// Room for other work, so that what was begun is still ended this evening, even with other tools in hand.
    fn room_beside(&mut self, begun: &Begun) -> Room {
        let mut starts = std::mem::take(&mut self.starts);
        let count = begun.models.end - begun.models.start;
        let idle = Hands { brush: None, ..self.hands };
        let other = if self.hands.airbrush.is_some() { Hands { airbrush: Some(usize::MAX), ..idle } } else { idle };
        let outside = |pass: &Pass| self.earliest(pass, begun.models.clone()).unwrap_or_default();
        let end = self.work.lay_out(&begun.left, count, (self.now, other), &mut starts, outside);
        let strips = self.hands.airbrush.is_some() || self.work.sprays(&begun.left);
        let limit = self.calendar.end(self.evening).saturating_sub(if strips { self.work.changes.strip } else { 0 });
        let first = self.work.slice(&begun.left).first();
        let change = first.map_or(0, |pass| other.change(pass.kit, self.work.tool(pass), &self.work.changes));
        let begins = starts.first().copied().unwrap_or(self.now).saturating_sub(change);
        self.starts = starts;
        // Where the airbrush can't be stripped behind what was begun, there must be time for it before.
        let until = (begins + limit).saturating_sub(end);
        Room { until, stripped: strips, single: true, strip_first: strips && limit < end }
    }

    /// The best of what is ready now and has room.
    fn best(&mut self, room: Room) -> Option<Choice> {
        let mut best: Option<Choice> = None;
        for at in 0..self.open.len() {
            let Some(bundle) = self.open.get(at).copied() else { continue };
            self.looks += 1;
            if let Some(choice) = self.choice(bundle, room).filter(|one| best.is_none_or(|best| one.score > best.score))
            {
                best = Some(choice);
            }
        }
        best
    }

    /// What could be done of a bundle now, if anything.
    fn choice(&mut self, at: usize, room: Room) -> Option<Choice> {
        let bundle = self.work.bundles.get(at)?;
        if room.single && bundle.passes.len() > 1 {
            return None;
        }
        let pass = self.work.passes.get(bundle.passes.start)?;
        let done = self.done.get(bundle.passes.start).copied()?;
        let within = self.available(&bundle.passes, done);
        let left = self.work.models_of(pass) - done;
        if within == 0 || (bundle.whole && within < left) {
            return None;
        }
        let strips = !room.stripped && (self.hands.airbrush.is_some() || self.work.sprays(&bundle.passes));
        let limit = room.until.checked_sub(if strips { self.work.changes.strip } else { 0 })?;
        let models = if bundle.passes.len() == 1 {
            self.single(pass, done, within, limit)?
        } else {
            self.several(&bundle.passes, done, within, limit)?
        };
        if bundle.whole && models < left {
            return None;
        }
        Some(Choice { bundle: at, models, score: self.score(at, pass, models) })
    }

    fn score(&self, bundle: usize, pass: &Pass, models: u32) -> (bool, Seconds) {
        let tool = self.work.tool(pass);
        let kept = self.hands.change(pass.kit, tool, &self.work.changes) == 0;
        let begins_spraying = tool == Tool::Airbrush && self.hands.airbrush.is_none();
        let worth = !begins_spraying || pass.each * Seconds::from(models) >= self.rule.worth_spraying;
        let weight = self.rule.weights.get(bundle).copied().unwrap_or_default();
        (worth, weight + if kept { self.rule.keep } else { 0 })
    }

    /// How many models behind those that are done all earlier passes outside a bundle have done.
    fn available(&self, range: &Range<usize>, done: u32) -> u32 {
        let passes = self.work.slice(range);
        let all = passes.first().map_or(0, |pass| self.work.models_of(pass));
        let links = passes.iter().flat_map(|pass| &pass.links).filter(|link| !range.contains(&link.pass));
        let ready = links.filter_map(|link| self.done.get(link.pass)).fold(all, |least, one| least.min(*one));
        ready.saturating_sub(done)
    }

    /// How many models a pass can go over from now on, without a stop and before a moment.
    fn single(&self, pass: &Pass, done: u32, within: u32, limit: Seconds) -> Option<u32> {
        let start = self.now + self.hands.change(pass.kit, self.work.tool(pass), &self.work.changes);
        let room = limit.checked_sub(start)?;
        let fit = room.checked_div(pass.each).map_or(within, |fit| u32::try_from(fit).unwrap_or(u32::MAX).min(within));
        let ready = pass.links.iter().fold(fit, |most, link| self.unhindered(pass, *link, (start, done), most));
        (ready > 0).then_some(ready)
    }

    /// How many of `most` models, from `first` on, a pass can go over from `start` on before a link holds one up.
    fn unhindered(&self, pass: &Pass, link: Link, (start, first): (Seconds, u32), most: u32) -> u32 {
        let (Some(other), Some(chunks)) = (self.work.passes.get(link.pass), self.chunks.get(link.pass)) else {
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
    fn several(&mut self, range: &Range<usize>, done: u32, within: u32, limit: Seconds) -> Option<u32> {
        let first = self.work.slice(range).first()?;
        let mut starts = std::mem::take(&mut self.starts);
        let change = self.hands.change(first.kit, self.work.tool(first), &self.work.changes);
        let mut fits = |models: u32| {
            let outside = |pass: &Pass| self.earliest(pass, done..done + models).unwrap_or_default();
            outside(first) <= self.now + change
                && self.work.lay_out(range, models, (self.now, self.hands), &mut starts, outside) <= limit
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
        self.starts = starts;
        (fit > 0).then_some(fit)
    }

    /// When a pass may begin over some models, by all that has been done of the passes before it; `None` where one of them
    /// has not been over all these models yet. Links within its own bundle count only once they are laid.
    fn earliest(&self, pass: &Pass, models: Range<u32>) -> Option<Seconds> {
        let mut earliest = 0;
        for link in &pass.links {
            let other = self.work.passes.get(link.pass)?;
            let done = self.done.get(link.pass).copied()?;
            if done < models.end {
                if other.bundle == pass.bundle {
                    continue;
                }
                return None;
            }
            for chunk in self.chunks.get(link.pass)? {
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

    /// Begins what was chosen.
    fn take(&mut self, choice: Choice) {
        let Some(bundle) = self.work.bundles.get(choice.bundle) else { return };
        let sprays = self.work.sprays(&bundle.passes);
        if self.hands.airbrush.is_some() && !sprays && !self.sprays_later() {
            self.strip();
            return;
        }
        let from = self.done.get(bundle.passes.start).copied().unwrap_or_default();
        let models = from..from + choice.models;
        let left = bundle.passes.start + 1..bundle.passes.end;
        self.paint(bundle.passes.start, models.clone(), self.now);
        if !left.is_empty() {
            self.begun = Some(Begun { left, models: models.clone() });
        }
        let all = self.work.passes.get(bundle.passes.start).map_or(0, |pass| self.work.models_of(pass));
        if models.end >= all {
            self.open.retain(|open| *open != choice.bundle);
        }
    }

    /// Whether more spraying may come this evening.
    fn sprays_later(&self) -> bool {
        let end = self.calendar.end(self.evening).saturating_sub(self.work.changes.strip);
        let begun = self.begun.as_ref().is_some_and(|begun| self.work.sprays(&begun.left));
        let comes = |at: &usize| {
            let bundle = self.work.bundles.get(*at)?;
            let pass = self.work.passes.get(bundle.passes.start)?;
            let all: Seconds = self.work.slice(&bundle.passes).iter().map(|pass| self.work.hands_on(pass)).sum();
            let takes = if bundle.whole { all } else { pass.each };
            let sprays = self.work.sprays(&bundle.passes);
            (sprays && self.ready(*at)? + takes <= end).then_some(())
        };
        begun || self.open.iter().any(|at| comes(at).is_some())
    }

    /// When a bundle's next model, or all of its models, may be begun with.
    fn ready(&self, at: usize) -> Option<Seconds> {
        let bundle = self.work.bundles.get(at)?;
        let pass = self.work.passes.get(bundle.passes.start)?;
        let done = self.done.get(bundle.passes.start).copied()?;
        let available = self.available(&bundle.passes, done);
        let count = if bundle.whole { self.work.models_of(pass) - done } else { 1 };
        if available < count {
            return None;
        }
        self.earliest(pass, done..done + count)
    }

    /// Waits until something more is ready this evening, or for the next evening on which something is.
    fn wait(&mut self, end: Seconds) -> Option<()> {
        if self.hands.airbrush.is_some() && !self.sprays_later() {
            self.strip();
            return Some(());
        }
        let end = end.saturating_sub(if self.hands.airbrush.is_some() { self.work.changes.strip } else { 0 });
        let mut tonight = Seconds::MAX;
        let mut ever = Seconds::MAX;
        for bundle in &self.open {
            let Some(ready) = self.ready(*bundle) else { continue };
            let change = self.work.bundles.get(*bundle).and_then(|bundle| self.work.passes.get(bundle.passes.start));
            let change = change.map_or(0, |pass| self.hands.change(pass.kit, self.work.tool(pass), &self.work.changes));
            let wake = ready.saturating_sub(change);
            if wake > self.now && wake < end {
                tonight = tonight.min(wake);
            }
            ever = ever.min(ready);
        }
        if tonight < Seconds::MAX {
            self.now = tonight;
            return Some(());
        }
        self.strip();
        if ever == Seconds::MAX {
            return None;
        }
        self.evening = self.calendar.evening_at(ever).max(self.evening + 1);
        self.now = self.calendar.start(self.evening);
        self.hands = Hands::default();
        (self.evening < MOST_EVENINGS).then_some(())
    }

    /// Lays a pass over models, not before a moment, with what it takes to make the tool ready before it.
    fn paint(&mut self, at: usize, models: Range<u32>, not_before: Seconds) {
        let Some(pass) = self.work.passes.get(at) else { return };
        let tool = self.work.tool(pass);
        let change = self.hands.change(pass.kit, tool, &self.work.changes);
        let start = not_before.max(self.now + change);
        if change > 0 {
            let rinse = tool == Tool::Airbrush && self.hands.airbrush.is_some();
            self.push(start - change, start, Deed::Ready { kit: pass.kit, rinse });
            self.changing += change;
        }
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
    fn strip(&mut self) {
        if self.hands.airbrush.take().is_some() && self.work.changes.strip > 0 {
            let start = self.now;
            self.now += self.work.changes.strip;
            self.push(start, self.now, Deed::Strip);
            self.changing += self.work.changes.strip;
        }
    }

    fn push(&mut self, start: Seconds, end: Seconds, deed: Deed) {
        self.stretches.push(Stretch { evening: self.evening, start, end, deed });
    }
}
