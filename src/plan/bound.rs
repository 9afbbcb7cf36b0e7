//! What no plan can beat, whatever its order: the lower bound.
//!
//! For an end that is asked about, every pass gets windows, one for each quarter of its models: from the earliest moment at
//! which the models before can be done to the latest at which these must be ([`super::windows`]). If some span of time
//! must hold more work than there is time at the desk, the end can't be met. The work is hands-on time, waits between
//! coats that nothing may come between, and the changes of tools that can't be avoided ([`super::changes`]). The bound is
//! the earliest end of which this does not say so. Where units crowd each other, and where only a coat cut into crumbs
//! would meet it, the best plan lies above it.

use super::Seconds;
use super::calendar::Calendar;
use super::changes::{Changing, changes};
use super::crowd::Crowds;
use super::windows::{Due, Given, Heads};
use super::workload::Workload;

/// At most so many beginnings of windows are tried.
const MOST_BEGINNINGS: usize = 256;

/// What no plan can beat.
#[derive(Debug)]
pub(super) struct Bound {
    /// The end, in seconds at the desk; at most what was found.
    pub(super) end: Seconds,
    /// For each pass, when the first part of its models must be done for that end.
    pub(super) due: Vec<Seconds>,
}

/// What no plan can beat, where one was found that ends so.
pub(super) fn bound(work: &Workload, calendar: &Calendar, found: Seconds) -> Bound {
    let crowds = &Crowds::of(work);
    let given = Given { work, calendar, crowds };
    let windows = Windows { given, heads: Heads::of(given), changes: changes(work, calendar) };
    let (mut impossible, mut possible) = (0, found);
    while impossible + 1 < possible {
        let middle = impossible + (possible - impossible) / 2;
        if windows.can_end(middle) { possible = middle } else { impossible = middle }
    }
    let due = Due::of(given, calendar.moment(possible));
    let by = |at: usize| due.as_ref().map_or(0, |due| due.by(at, 1));
    Bound { end: possible, due: (0..work.passes.len()).map(by).collect() }
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

struct Windows<'a> {
    given: Given<'a>,
    heads: Heads,
    changes: Vec<Changing>,
}

impl Windows<'_> {
    /// Whether nothing speaks against an end at a time at the desk.
    fn can_end(&self, end: Seconds) -> bool {
        let Given { work, calendar, .. } = self.given;
        let moment = calendar.moment(end);
        let Some(due) = Due::of(self.given, moment) else { return false };
        let mut pieces = Vec::new();
        for (at, pass) in work.passes.iter().enumerate() {
            for part in work.parts(pass) {
                let (from, to) = (self.heads.begin(at, part.number), due.by(at, part.number));
                if from + pass.each > to {
                    return false;
                }
                pieces.push(Piece { from, to, takes: pass.each * Seconds::from(part.to - part.from) });
            }
            let waits = work.held_up(pass);
            if waits > 0 {
                let from = self.heads.begin(at, 1).saturating_sub(waits);
                pieces.push(Piece { from, to: due.last(at), takes: waits });
            }
        }
        for Changing { takes, users } in &self.changes {
            let from = users.iter().map(|at| self.heads.begin(*at, 1)).min().unwrap_or_default();
            let to = users.iter().map(|at| due.last(*at)).max().unwrap_or(moment);
            // A tool is made ready before its first use, and cleaned after its last: the window is as wide as all of them.
            pieces.push(Piece { from: from.saturating_sub(*takes), to: to.saturating_add(*takes), takes: *takes });
        }
        fits(pieces, calendar, moment)
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
