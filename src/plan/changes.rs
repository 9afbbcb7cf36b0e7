//! The changes of tools that can't be avoided, with the passes between which they stand.
//!
//! A kit is taken up once for every time that a model needs it with something else between: on the longest way through
//! the links, another kit in the same hand or a night. What is sprayed is counted by colours, by carriers and by evenings.

use super::Seconds;
use super::calendar::Calendar;
use super::hands::Tool;
use super::workload::{Pass, Workload};

/// Changes of tools that can't be avoided, and the passes between which they stand.
#[derive(Debug)]
pub(super) struct Changing {
    pub(super) takes: Seconds,
    pub(super) users: Vec<usize>,
}

/// All of them.
pub(super) fn changes(work: &Workload, calendar: &Calendar) -> Vec<Changing> {
    let brushes = work.kits.iter().enumerate().filter(|(_, kit)| matches!(kit.tool, Tool::Can | Tool::Brush));
    let mut changes: Vec<Changing> = brushes
        .map(|(kit, of)| {
            let users = users(work, |pass| pass.kit == kit);
            // Whatever does not go into one evening is taken up again on the next.
            let whole = work.changes.whole(of.tool);
            let others = |pass: &Pass| pass.kit != kit && matches!(work.tool(pass), Tool::Can | Tool::Brush);
            let times = evenings(work, calendar, &users, whole).max(turns(work, calendar, &users, others));
            Changing { takes: whole * times, users }
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
    hands_on.div_ceil(holds).max(turns(work, calendar, users, |_| false)).max(1)
}

/// On how many evenings the airbrush is set up at the least, and what that, its colours and their carriers take.
fn airbrush(work: &Workload, calendar: &Calendar, users: &[usize]) -> Seconds {
    let session = work.changes.airbrush + work.changes.strip;
    let least = evenings(work, calendar, users, session);
    let sprays = |pass: &Pass| work.tool(pass) == Tool::Airbrush;
    let carrier = |pass: &Pass| work.kits.get(pass.kit).map(|kit| kit.carrier);
    let of = |wanted: &dyn Fn(&Pass) -> bool| {
        let own = self::users(work, |pass| sprays(pass) && wanted(pass));
        turns(work, calendar, &own, |pass| sprays(pass) && !wanted(pass))
    };
    let kits = work.kits.iter().enumerate().filter(|(_, kit)| kit.tool == Tool::Airbrush);
    let colours: Seconds = kits.clone().map(|(kit, _)| of(&|pass: &Pass| pass.kit == kit)).sum();
    let mut each: Vec<_> = Vec::new();
    kits.map(|(_, kit)| kit.carrier).for_each(|one| {
        if !each.contains(&one) {
            each.push(one);
        }
    });
    let carriers: Seconds = each.iter().map(|one| of(&|pass: &Pass| carrier(pass) == Some(*one))).sum();
    // Each evening begins with one colour; every other colour is a rinse, and every other carrier a strip.
    let takes = |evenings: Seconds| {
        evenings * session
            + colours.saturating_sub(evenings) * work.changes.rinse
            + carriers.saturating_sub(evenings) * work.changes.strip
    };
    // More evenings may cost less than strips and rinses; between these numbers of evenings the cost is a straight line.
    [least, carriers.max(least), colours.max(least)].map(takes).into_iter().min().unwrap_or_default()
}

/// How a way to a pass has used something: how often it was taken up, whether the hands hold it no more, and how long
/// ago it was last taken up.
type Way = (Seconds, bool, Seconds);

/// How often something is taken up at the least on one way through the links: again where something else was in the
/// hand since, or where no evening is long enough to hold both.
fn turns(work: &Workload, calendar: &Calendar, users: &[usize], another: impl Fn(&Pass) -> bool) -> Seconds {
    let mut used = vec![false; work.passes.len()];
    for at in users {
        used.iter_mut().skip(*at).take(1).for_each(|slot| *slot = true);
    }
    let mut best: Vec<Way> = Vec::with_capacity(work.passes.len());
    for (pass, uses) in work.passes.iter().zip(&used) {
        let ways = pass.links.iter().filter_map(|link| {
            let (times, gone, ago) = best.get(link.pass).copied()?;
            let ago = ago + work.passes.get(link.pass)?.each + link.rest;
            let gone = gone || ago >= calendar.longest();
            Some(match (*uses, times == 0 || gone) {
                (true, true) => (times + 1, false, 0),
                (true, false) => (times, false, ago),
                (false, _) => (times, gone || another(pass), ago),
            })
        });
        best.push(ways.max().unwrap_or((Seconds::from(*uses), false, 0)));
    }
    best.iter().map(|(times, ..)| *times).max().unwrap_or_default()
}
