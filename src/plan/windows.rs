//! When the models of every pass can be done at the earliest, and when they must be at the latest.
//!
//! A pass is followed at the quarters of its models: so many of them are done when so many have left the passes before,
//! whichever they are. What must be on one evening begins on one that holds it whole.

use super::Seconds;
use super::calendar::Calendar;
use super::hands::Tool;
use super::workload::{Pass, Workload};

/// Into so many parts a pass is cut.
const PARTS: u32 = 4;

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
}

/// The earliest moments.
#[derive(Debug)]
pub(super) struct Heads {
    /// For each pass when its first model is begun with, and when each of its parts is done.
    moments: Vec<Vec<Seconds>>,
}

impl Heads {
    /// The earliest moments of all passes, if nothing else were to be done.
    pub(super) fn of(work: &Workload, calendar: &Calendar) -> Self {
        let mut heads = Self { moments: Vec::with_capacity(work.passes.len()) };
        for pass in &work.passes {
            let moments = heads.of_pass(work, calendar, pass);
            heads.moments.push(moments);
        }
        heads
    }

    fn of_pass(&self, work: &Workload, calendar: &Calendar, pass: &Pass) -> Vec<Seconds> {
        let (lead, trail) = work.margins(pass);
        let begin = |earliest: Seconds, takes: Seconds| calendar.begin(earliest, (lead, takes, trail));
        // When a model can be begun with by the passes before, if it is the last of a part there.
        let ready = |part: usize| {
            let links = pass.links.iter();
            let after = links.filter_map(|link| {
                let other = work.passes.get(link.pass)?;
                let done = match part {
                    0 => self.begin(link.pass, 1) + other.each,
                    _ => self.done(link.pass, part),
                };
                Some(done + link.rest)
            });
            after.max().unwrap_or_default()
        };
        let (models, parts) = (work.models_of(pass), work.parts(pass));
        if work.in_one_run(pass) {
            let turn = |part: &Part| pass.each * Seconds::from(part.to);
            let by_parts = parts.iter().map(|part| (ready(part.number) + pass.each).saturating_sub(turn(part)));
            let start = begin(by_parts.fold(ready(0), Seconds::max), pass.each * Seconds::from(models));
            return std::iter::once(start).chain(parts.iter().map(|part| start + turn(part))).collect();
        }
        let first = begin(ready(0), pass.each);
        let mut moments = vec![first];
        for part in parts {
            let before = moments.last().copied().unwrap_or(first);
            let own = calendar.moment(calendar.worked(before) + pass.each * Seconds::from(part.to - part.from));
            moments.push(own.max(begin(ready(part.number), pass.each) + pass.each));
        }
        moments
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
    pub(super) fn of(work: &Workload, calendar: &Calendar, end: Seconds) -> Option<Self> {
        // Behind the last spraying the airbrush is stripped before all is over.
        let last = |pass: &Pass| end.checked_sub(work.margins(pass).1);
        let all = work.passes.iter().map(|pass| Some(vec![last(pass)?; work.parts(pass).len()]));
        let mut moments: Vec<Vec<Seconds>> = all.collect::<Option<_>>()?;
        for (at, pass) in work.passes.iter().enumerate().rev() {
            let (lead, trail) = work.margins(pass);
            let by = |latest: Seconds, takes: Seconds| calendar.begin_by(latest, (lead, takes, trail));
            let own = moments.get_mut(at)?;
            let mut next: Option<(Seconds, u32)> = None;
            let mut begins = vec![0; own.len()];
            for (part, (due, begin)) in work.parts(pass).into_iter().zip(own.iter_mut().zip(&mut begins)).rev() {
                if let Some((later, models)) = next {
                    let worked = calendar.worked(later).checked_sub(pass.each * Seconds::from(models))?;
                    *due = (*due).min(calendar.moment(worked));
                }
                *begin = by(*due, pass.each)?;
                *due = *begin + pass.each;
                next = Some((*due, part.to - part.from));
            }
            for link in &pass.links {
                for (due, begin) in moments.get_mut(link.pass)?.iter_mut().zip(&begins) {
                    *due = (*due).min(begin.checked_sub(link.rest)?);
                }
            }
        }
        Some(Self { moments })
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
