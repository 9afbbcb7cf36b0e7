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
