//! What no plan can beat, whatever its order: the lower bound.
//!
//! For an end that is asked about, every pass gets a window: from the earliest moment at which a first model can get there
//! (the longest chain before it, through the evenings) to the latest moment at which a last model must leave it. If some
//! window holds more work than there is time at the desk, the end can't be met. The work is hands-on time and the changes
//! of tools that can't be avoided. The bound is the earliest end of which this does not say so. It leaves out that a
//! model's coat can't be split between evenings and that models keep their order, so the best plan may lie above it.

use super::Seconds;
use super::calendar::Calendar;
use super::hands::Tool;
use super::workload::Workload;

/// At most so many beginnings of windows are tried.
const MOST_BEGINNINGS: usize = 48;

/// What no plan can beat, in seconds at the desk; at most what was found.
pub(super) fn bound(work: &Workload, calendar: &Calendar, found: Seconds) -> Seconds {
    let windows = Windows::of(work, calendar);
    let (mut impossible, mut possible) = (0, found);
    while impossible + 1 < possible {
        let middle = impossible + (possible - impossible) / 2;
        if windows.can_end(work, calendar, middle) { possible = middle } else { impossible = middle }
    }
    possible
}

/// Work that can't be split up further than this: so much in a window.
#[derive(Debug, Clone, Copy)]
struct Piece {
    /// The earliest moment.
    from: Seconds,
    /// The latest moment.
    to: Seconds,
    takes: Seconds,
}

struct Windows {
    /// The earliest beginning of each pass.
    earliest: Vec<Seconds>,
    /// What it takes for each kit to be used at all, and the passes that use it.
    changes: Vec<(Seconds, Vec<usize>)>,
}

impl Windows {
    fn of(work: &Workload, calendar: &Calendar) -> Self {
        Self { earliest: earliest(work, calendar), changes: changes(work, calendar) }
    }

    /// Whether nothing speaks against an end at a time at the desk.
    fn can_end(&self, work: &Workload, calendar: &Calendar, end: Seconds) -> bool {
        let Some(latest) = latest(work, calendar, calendar.moment(end)) else { return false };
        let mut pieces = Vec::with_capacity(work.passes.len() + self.changes.len());
        for ((pass, from), to) in work.passes.iter().zip(&self.earliest).zip(&latest) {
            if from + pass.each > *to {
                return false;
            }
            pieces.push(Piece { from: *from, to: *to, takes: work.hands_on(pass) });
        }
        for (takes, users) in &self.changes {
            let from = users.iter().filter_map(|at| self.earliest.get(*at)).min().copied().unwrap_or_default();
            let to = if users.is_empty() {
                calendar.moment(end)
            } else {
                users.iter().filter_map(|at| latest.get(*at)).max().copied().unwrap_or_default()
            };
            // A tool is made ready before its first use, and cleaned after its last: the window is as wide as all of them.
            pieces.push(Piece { from: from.saturating_sub(*takes), to: to.saturating_add(*takes), takes: *takes });
        }
        fits(pieces, calendar, calendar.moment(end))
    }
}

/// Whether the work of every window goes into the time at the desk within it.
fn fits(mut pieces: Vec<Piece>, calendar: &Calendar, end: Seconds) -> bool {
    for piece in &mut pieces {
        piece.to = piece.to.min(end);
    }
    pieces.sort_unstable_by_key(|piece| piece.to);
    let mut beginnings: Vec<Seconds> = pieces.iter().map(|piece| piece.from).collect();
    beginnings.sort_unstable();
    beginnings.dedup();
    let stride = beginnings.len().div_ceil(MOST_BEGINNINGS).max(1);
    let ends: Vec<Seconds> = pieces.iter().map(|piece| calendar.worked(piece.to)).collect();
    beginnings.into_iter().step_by(stride).all(|from| {
        let begun = calendar.worked(from);
        let mut sum: Seconds = 0;
        pieces.iter().zip(&ends).filter(|(piece, _)| piece.from >= from).all(|(piece, end)| {
            sum += piece.takes;
            begun + sum <= *end
        })
    })
}

/// When the first model of each pass can be begun with at the earliest, if nothing else were to be done.
fn earliest(work: &Workload, calendar: &Calendar) -> Vec<Seconds> {
    let mut earliest: Vec<Seconds> = Vec::with_capacity(work.passes.len());
    for pass in &work.passes {
        let ready = pass.links.iter().filter_map(|link| {
            let other = work.passes.get(link.pass)?;
            Some(earliest.get(link.pass)? + other.each + link.rest)
        });
        let ready = ready.max().unwrap_or_default();
        earliest.push(calendar.begin(ready, pass.each));
    }
    earliest
}

/// When the last model of each pass must be done at the latest; `None` where the end is too early for a chain.
fn latest(work: &Workload, calendar: &Calendar, end: Seconds) -> Option<Vec<Seconds>> {
    let mut latest = vec![end; work.passes.len()];
    for (at, pass) in work.passes.iter().enumerate().rev() {
        let begin = calendar.begin_by(latest.get(at).copied()?, pass.each)?;
        if let Some(slot) = latest.get_mut(at) {
            *slot = begin + pass.each;
        }
        for link in &pass.links {
            let by = begin.checked_sub(link.rest)?;
            let slot = latest.get_mut(link.pass)?;
            *slot = (*slot).min(by);
        }
    }
    Some(latest)
}

/// The changes of tools that can't be avoided, with the passes between which they stand.
fn changes(work: &Workload, calendar: &Calendar) -> Vec<(Seconds, Vec<usize>)> {
    let mut changes = Vec::new();
    let mut colours = 0;
    for (kit, tool) in work.kits.iter().map(|kit| kit.tool).enumerate() {
        let users: Vec<usize> =
            (0..work.passes.len()).filter(|at| work.passes.get(*at).is_some_and(|pass| pass.kit == kit)).collect();
        let hands_on: Seconds =
            users.iter().filter_map(|at| work.passes.get(*at)).map(|pass| work.hands_on(pass)).sum();
        // What does not go into one evening is taken up again on the next.
        let evenings = hands_on.div_ceil(calendar.longest()).max(1);
        match tool {
            Tool::Airbrush => colours += 1,
            Tool::Can | Tool::Brush => changes.push((work.changes.whole(tool) * evenings, users)),
            Tool::Bare => {}
        }
    }
    if colours > 0 {
        changes.push((airbrush(work, calendar, colours), airbrushed(work)));
    }
    changes
}

fn airbrushed(work: &Workload) -> Vec<usize> {
    work.passes.iter().enumerate().filter(|(_, pass)| work.tool(pass) == Tool::Airbrush).map(|(at, _)| at).collect()
}

/// On how many evenings it is set up at the least, and what that and its colours take.
fn airbrush(work: &Workload, calendar: &Calendar, colours: Seconds) -> Seconds {
    let session = work.changes.airbrush + work.changes.strip;
    let users = airbrushed(work);
    let hands_on: Seconds = users.iter().filter_map(|at| work.passes.get(*at)).map(|pass| work.hands_on(pass)).sum();
    let evenings = hands_on.div_ceil(calendar.longest()).max(sprayed_apart(work, calendar)).max(1);
    // Each evening begins with one colour; every other colour is a rinse, or an evening of its own if that costs less.
    evenings * session + colours.saturating_sub(evenings) * work.changes.rinse.min(session)
}

/// The most sprayed passes of one chain that no two can be on one evening.
fn sprayed_apart(work: &Workload, calendar: &Calendar) -> Seconds {
    // For each pass: how many evenings with the airbrush there were on a way to it, and how long ago the last one began.
    let mut best: Vec<(Seconds, Seconds)> = Vec::with_capacity(work.passes.len());
    for pass in &work.passes {
        let sprays = work.tool(pass) == Tool::Airbrush;
        let ways = pass.links.iter().filter_map(|link| {
            let (evenings, ago) = best.get(link.pass).copied()?;
            let ago = ago + work.passes.get(link.pass)?.each + link.rest;
            Some(if sprays && (evenings == 0 || ago >= calendar.longest()) {
                (evenings + 1, 0)
            } else {
                (evenings, ago)
            })
        });
        let way = ways.max_by(|a, b| a.0.cmp(&b.0).then(a.1.cmp(&b.1)));
        best.push(way.unwrap_or((Seconds::from(sprays), 0)));
    }
    best.iter().map(|(evenings, _)| *evenings).max().unwrap_or_default()
}
