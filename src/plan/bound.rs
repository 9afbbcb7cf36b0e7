//! What no plan can beat, whatever its order: the lower bound.
//!
//! For an end that is asked about, every pass gets windows, one for each quarter of its models: from the earliest moment at
//! which the models before can be done to the latest at which these must be ([`super::windows`]). If some span of time
//! must hold more work than there is time at the desk, the end can't be met. The work is hands-on time, waits between
//! coats that nothing may come between, and the changes of tools that can't be avoided. The bound is the earliest end of
//! which this does not say so. It leaves out that a model's coat can't be split between evenings, so the best plan may
//! lie above it.

use super::Seconds;
use super::calendar::Calendar;
use super::hands::Tool;
use super::windows::{Due, Heads};
use super::workload::{Pass, Workload};

/// At most so many beginnings of windows are tried.
const MOST_BEGINNINGS: usize = 64;

/// What no plan can beat, in seconds at the desk; at most what was found.
pub(super) fn bound(work: &Workload, calendar: &Calendar, found: Seconds) -> Seconds {
    let windows = Windows { heads: Heads::of(work, calendar), changes: changes(work, calendar) };
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

/// Changes of tools that can't be avoided, and the passes between which they stand.
struct Changing {
    takes: Seconds,
    users: Vec<usize>,
}

struct Windows {
    heads: Heads,
    changes: Vec<Changing>,
}

impl Windows {
    /// Whether nothing speaks against an end at a time at the desk.
    fn can_end(&self, work: &Workload, calendar: &Calendar, end: Seconds) -> bool {
        let moment = calendar.moment(end);
        let Some(due) = Due::of(work, calendar, moment) else { return false };
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

/// The changes of tools that can't be avoided, with the passes between which they stand.
fn changes(work: &Workload, calendar: &Calendar) -> Vec<Changing> {
    let brushes = work.kits.iter().enumerate().filter(|(_, kit)| matches!(kit.tool, Tool::Can | Tool::Brush));
    let mut changes: Vec<Changing> = brushes
        .map(|(kit, of)| {
            let users = users(work, |pass| pass.kit == kit);
            // Whatever does not go into one evening is taken up again on the next.
            let whole = work.changes.whole(of.tool);
            let evenings = evenings(work, calendar, &users, whole);
            Changing { takes: whole * evenings, users }
        })
        .collect();
    let sprayed = users(work, |pass| work.tool(pass) == Tool::Airbrush);
    if !sprayed.is_empty() {
        changes.push(Changing { takes: airbrush(work, calendar, &sprayed), users: sprayed });
    }
    changes
}

fn users(work: &Workload, uses: impl Fn(&Pass) -> bool) -> Vec<usize> {
    work.passes.iter().enumerate().filter(|(_, pass)| uses(pass)).map(|(at, _)| at).collect()
}

/// On how many evenings something is used at the least, if each of them costs it so much time beside.
fn evenings(work: &Workload, calendar: &Calendar, users: &[usize], beside: Seconds) -> Seconds {
    let hands_on: Seconds = users.iter().filter_map(|at| work.passes.get(*at)).map(|pass| work.hands_on(pass)).sum();
    let holds = calendar.longest().saturating_sub(beside).max(1);
    hands_on.div_ceil(holds).max(apart(work, calendar, users)).max(1)
}

/// On how many evenings the airbrush is set up at the least, and what that, its colours and their carriers take.
fn airbrush(work: &Workload, calendar: &Calendar, users: &[usize]) -> Seconds {
    let session = work.changes.airbrush + work.changes.strip;
    let least = evenings(work, calendar, users, session);
    let sprayed = work.kits.iter().filter(|kit| kit.tool == Tool::Airbrush);
    let mut carriers: Vec<u8> = sprayed.map(|kit| kit.carrier as u8).collect();
    let colours = carriers.len() as Seconds;
    carriers.sort_unstable();
    carriers.dedup();
    let carriers = carriers.len() as Seconds;
    // Each evening begins with one colour; every other colour is a rinse, and every other carrier a strip.
    let takes = |evenings: Seconds| {
        evenings * session
            + colours.saturating_sub(evenings) * work.changes.rinse
            + carriers.saturating_sub(evenings) * work.changes.strip
    };
    // More evenings may cost less than strips and rinses; between these numbers of evenings the cost is a straight line.
    [least, carriers.max(least), colours.max(least)].map(takes).into_iter().min().unwrap_or_default()
}

/// The most passes of some in one chain that no two can be on one evening.
fn apart(work: &Workload, calendar: &Calendar, users: &[usize]) -> Seconds {
    let mut used = vec![false; work.passes.len()];
    for at in users {
        used.iter_mut().skip(*at).take(1).for_each(|slot| *slot = true);
    }
    // For each pass: how many evenings of use there were on a way to it, and how long ago the last one began.
    let mut best: Vec<(Seconds, Seconds)> = Vec::with_capacity(work.passes.len());
    for (pass, uses) in work.passes.iter().zip(&used) {
        let ways = pass.links.iter().filter_map(|link| {
            let (evenings, ago) = best.get(link.pass).copied()?;
            let ago = ago + work.passes.get(link.pass)?.each + link.rest;
            let another = *uses && (evenings == 0 || ago >= calendar.longest());
            Some(if another { (evenings + 1, 0) } else { (evenings, ago) })
        });
        let way = ways.max_by(|a, b| a.0.cmp(&b.0).then(a.1.cmp(&b.1)));
        best.push(way.unwrap_or((Seconds::from(*uses), 0)));
    }
    best.iter().map(|(evenings, _)| *evenings).max().unwrap_or_default()
}
