//! A better schedule: other rules first, then shaken weights and moved bundles, for a number of looks that follows from the army alone.

use super::Seconds;
use super::calendar::Calendar;
use super::hands::Habits;
use super::random::Random;
use super::ranks::ranks;
use super::schedule::{Deed, Rule, Schedule, schedule};
use super::workload::Workload;

/// How many times, in all, the search may look at a bundle that something could be done of.
const MOST_LOOKS: u64 = 12_000;

/// How many schedules are made at most.
const MOST_TRIES: u32 = 400;

/// Where the weights are times, a colour in the hand is worth no longer detour than this.
const MOST_KEEP: Seconds = 3600;

/// Where the random numbers begin.
const SEED: u64 = 0x6d61_756c;

/// What makes a schedule good: an early end, little changing of tools, few pieces.
fn badness(found: &Schedule, calendar: &Calendar) -> (Seconds, Seconds, usize) {
    (calendar.worked(found.finish), found.changing, found.stretches.len())
}

/// The best schedule that was found; `None` where there is none within the most evenings.
pub(super) fn search(work: &Workload, calendar: &Calendar) -> Option<Schedule> {
    let weights = ranks(work, calendar);
    let mut looks = 0;
    let mut best: Option<(Rule, Schedule)> = None;
    let mut consider = |rule: Rule, best: &mut Option<(Rule, Schedule)>| {
        let found = schedule(work, calendar, &rule);
        looks += found.as_ref().map_or(MOST_LOOKS, |found| found.looks);
        if let Some(found) = found
            && best.as_ref().is_none_or(|(_, best)| badness(&found, calendar) <= badness(best, calendar))
        {
            *best = Some((rule, found));
        }
        looks < MOST_LOOKS
    };
    for rule in first_rules(work, &weights, calendar) {
        if !consider(rule, &mut best) {
            return best.map(|(_, found)| found);
        }
    }
    let mut random = Random::new(SEED);
    for turn in 0..MOST_TRIES {
        let (rule, found) = best.as_ref()?;
        let rule =
            if turn % 2 == 0 { shaken(rule, &weights, &mut random) } else { moved(rule, found, work, &mut random) };
        if !consider(rule, &mut best) {
            break;
        }
    }
    best.map(|(_, found)| found)
}

/// The order of a schedule as weights, with some bundles moved to another time.
fn moved(rule: &Rule, found: &Schedule, work: &Workload, random: &mut Random) -> Rule {
    let mut weights = vec![0; work.bundles.len()];
    for stretch in found.stretches.iter().rev() {
        if let Deed::Paint { pass, .. } = stretch.deed
            && let Some(pass) = work.passes.get(pass)
        {
            weights.iter_mut().skip(pass.bundle).take(1).for_each(|weight| *weight = 2 * found.finish - stretch.start);
        }
    }
    let begin = found.stretches.first().map_or(0, |first| first.start);
    let through = found.finish.saturating_sub(begin);
    for _ in 0..=random.below(3) {
        let at = usize::try_from(random.below(weights.len() as u64)).unwrap_or_default();
        let reach = through / (1 + random.below(16)) + 1;
        weights
            .iter_mut()
            .skip(at)
            .take(1)
            .for_each(|weight| *weight = (*weight + random.below(2 * reach)).saturating_sub(reach));
    }
    Rule { weights, keep: rule.keep.min(MOST_KEEP), ..rule.clone() }
}

/// Every way of going on with a colour, with every way of putting off short spraying.
fn first_rules(work: &Workload, weights: &[Seconds], calendar: &Calendar) -> Vec<Rule> {
    let length = calendar.usual();
    let plain = Rule { keep: length / 2, ..Rule::plain(weights.to_vec()) };
    let keeps = [length / 2, 0, 4 * length];
    let keeping = keeps.into_iter().flat_map(|keep| [0, length / 6, length / 3].map(|worth| (keep, worth)));
    let mut rules: Vec<Rule> =
        keeping.map(|(keep, worth_spraying)| Rule { keep, worth_spraying, ..plain.clone() }).collect();
    let Habits { least_piece, patience, .. } = work.habits;
    rules.push(Rule { least_piece, ..plain.clone() });
    rules.push(Rule { least_piece, patience, ..plain });
    rules
}

/// A rule with one to three weights, or the ways of choosing, changed.
fn shaken(rule: &Rule, weights: &[Seconds], random: &mut Random) -> Rule {
    let mut rule = rule.clone();
    let longest = weights.iter().max().copied().unwrap_or_default().max(1);
    for _ in 0..=random.below(3) {
        let at = usize::try_from(random.below(weights.len() as u64)).unwrap_or_default();
        let reach = longest / (1 + random.below(8)) + 1;
        let new = weights.get(at).copied().unwrap_or_default() + random.below(2 * reach);
        rule.weights.iter_mut().skip(at).take(1).for_each(|weight| *weight = new.saturating_sub(reach));
    }
    rule
}
