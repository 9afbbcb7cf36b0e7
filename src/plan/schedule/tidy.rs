//! Puts the airbrush away as soon as nothing more is sprayed on an evening, where nothing dries too late for that.

use super::state::{Deed, Stretch};
use crate::plan::Seconds;
use crate::plan::hands::Tool;
use crate::plan::workload::{Link, Pass, Workload};

/// The same work with every airbrush stripped as early as may be; what was done before the stripping comes after it.
pub(in crate::plan) fn tidy(work: &Workload, mut all: Vec<Stretch>) -> Vec<Stretch> {
    let mut first = 0;
    while let Some(evening) = all.get(first).map(|stretch| stretch.evening) {
        let end = all.partition_point(|stretch| stretch.evening <= evening);
        if let Some((sprayed, strip)) = late_strip(work, &all, first..end) {
            let ways = [true, false].map(|absorbs| stripped_early(&all, sprayed, strip, absorbs));
            if let Some(better) = ways.into_iter().find(|way| holds(work, way, sprayed + 1..strip + 1)) {
                all = better;
                pull_up(work, &mut all, strip + 1..end);
            }
        }
        first = end;
    }
    all
}

/// The last spraying of an evening and the last stripping, where something else lies between them.
fn late_strip(work: &Workload, all: &[Stretch], evening: std::ops::Range<usize>) -> Option<(usize, usize)> {
    let of_evening = || evening.clone().rev().filter_map(|at| Some((at, all.get(at)?.deed)));
    let (strip, _) = of_evening().find(|(_, deed)| matches!(deed, Deed::Strip { next: None }))?;
    let sprays = |kit: usize| work.kits.get(kit).is_some_and(|kit| kit.tool == Tool::Airbrush);
    let (sprayed, _) = of_evening().find(|(_, deed)| match deed {
        Deed::Paint { pass, .. } => work.passes.get(*pass).is_some_and(|pass| sprays(pass.kit)),
        _ => false,
    })?;
    (sprayed + 1 < strip).then_some((sprayed, strip))
}

/// The stretches with the stripping right after the spraying; a gap may take up what the rest is late by.
fn stripped_early(all: &[Stretch], sprayed: usize, strip: usize, absorbs: bool) -> Vec<Stretch> {
    let mut all = all.to_vec();
    let Some(moved) = all.get_mut(sprayed..=strip) else { return all };
    let Some((spraying, rest)) = moved.split_first_mut() else { return all };
    rest.rotate_right(1);
    let mut free = spraying.end;
    let late = rest.first().map_or(0, |strip| strip.end - strip.start);
    for (at, stretch) in rest.iter_mut().enumerate() {
        let takes = stretch.end - stretch.start;
        stretch.start = match (at, absorbs) {
            (0, _) => free,
            (_, true) => stretch.start.max(free),
            (_, false) => stretch.start + late,
        };
        stretch.end = stretch.start + takes;
        free = stretch.end;
    }
    all
}

/// Moves what follows a stripping that is earlier now up into the gap that it left, as far as nothing dries too late for that.
fn pull_up(work: &Workload, all: &mut [Stretch], tail: std::ops::Range<usize>) {
    let mut at = tail.start;
    while at < tail.end {
        // A tool is made ready right before its pass.
        let paints =
            (at..tail.end).find(|later| matches!(all.get(*later).map(|one| one.deed), Some(Deed::Paint { .. })));
        let last = paints.unwrap_or(at);
        let free = at.checked_sub(1).and_then(|before| all.get(before)).map_or(0, |before| before.end);
        let Some((first, laid)) = all.get(at).copied().zip(all.get(last).copied()) else { return };
        let lead = laid.start - first.start;
        let earliest = paints.map_or(0, |_| dry_for(work, all, &laid)).saturating_sub(lead).max(free);
        let by = first.start.saturating_sub(earliest);
        for stretch in all.iter_mut().take(last + 1).skip(at) {
            stretch.start -= by;
            stretch.end -= by;
        }
        at = last + 1;
    }
}

/// When a pass over some models may begin, by what has been laid of the passes before it.
fn dry_for(work: &Workload, all: &[Stretch], laid: &Stretch) -> Seconds {
    let Deed::Paint { pass, from, to } = laid.deed else { return 0 };
    let Some(own) = work.passes.get(pass) else { return laid.start };
    let ready = |link: &Link| {
        let other = work.passes.get(link.pass)?;
        let laid = all.iter().filter_map(move |before| match before.deed {
            Deed::Paint { pass, from, to } if pass == link.pass => Some((from, to, before.start)),
            _ => None,
        });
        let ready = laid.flat_map(|(other_from, other_to, start)| {
            let ends = [from.max(other_from), to.min(other_to).saturating_sub(1)];
            let meet = if ends[0] > ends[1] { None } else { Some(ends) };
            meet.into_iter().flatten().map(move |model| {
                let dry = start + other.each * Seconds::from(model - other_from + 1) + link.rest;
                dry.saturating_sub(own.each * Seconds::from(model - from))
            })
        });
        ready.max()
    };
    own.links.iter().filter_map(ready).max().unwrap_or_default()
}

/// Whether every wait around the passes in a range of stretches is kept.
fn holds(work: &Workload, all: &[Stretch], moved: std::ops::Range<usize>) -> bool {
    let mut runs: Vec<Vec<(u32, u32, Seconds)>> = vec![Vec::new(); work.passes.len()];
    let mut is_moved = vec![false; work.passes.len()];
    for (at, stretch) in all.iter().enumerate() {
        if let Deed::Paint { pass, from, to } = stretch.deed {
            runs.iter_mut().skip(pass).take(1).for_each(|runs| runs.push((from, to, stretch.start)));
            is_moved.iter_mut().skip(pass).take(1).for_each(|slot| *slot |= moved.contains(&at));
        }
    }
    let concerns = |at: usize, link: &Link| is_moved.get(at) == Some(&true) || is_moved.get(link.pass) == Some(&true);
    let kept = |at: usize, pass: &Pass, link: &Link| {
        let (Some(own), Some(before), Some(other)) = (runs.get(at), runs.get(link.pass), work.passes.get(link.pass))
        else {
            return true;
        };
        own.iter().all(|(from, to, start)| {
            before.iter().all(|(other_from, other_to, other_start)| {
                let ends = [(*from).max(*other_from), (*to).min(*other_to).saturating_sub(1)];
                let turn = |model: u32| start + pass.each * Seconds::from(model - from);
                let ready = |model: u32| other_start + other.each * Seconds::from(model - other_from + 1) + link.rest;
                ends[0] > ends[1] || ends.iter().all(|model| turn(*model) >= ready(*model))
            })
        })
    };
    work.passes
        .iter()
        .enumerate()
        .all(|(at, pass)| pass.links.iter().filter(|link| concerns(at, link)).all(|link| kept(at, pass, link)))
}
