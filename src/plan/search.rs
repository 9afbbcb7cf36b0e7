//! A better schedule: other rules first, then shaken weights and moved bundles, for a number of looks that follows from the army alone.

use super::Seconds;
use super::bound::{Bound, bound};
use super::calendar::Calendar;
use super::hands::Habits;
use super::random::Random;
use super::ranks::ranks;
use super::schedule::{Deed, Rule, Schedule, schedule};
use super::workload::{Bundle, Workload};

/// How many times, in all, the search for one army may look at a bundle that something could be done of.
const MOST_LOOKS: u64 = 60_000;

/// From so many armies on they share what so many may look.
const FULLY_SEARCHED: u64 = 10;

/// How long the search for one of so many armies may look.
pub(super) fn most_looks(armies: usize) -> u64 {
    MOST_LOOKS * FULLY_SEARCHED / (armies as u64).max(FULLY_SEARCHED)
}

/// How many schedules are made at most.
const MOST_TRIES: u32 = 2_000;

/// Where the weights are times, a colour in the hand is worth no longer detour than this.
const MOST_KEEP: Seconds = 3600;

/// Where the random numbers begin.
const SEED: u64 = 0x6d61_756c;

/// What makes a schedule good: an early end, little changing of tools, few pieces.
fn badness(found: &Schedule, calendar: &Calendar) -> (Seconds, Seconds, usize) {
    (calendar.worked(found.finish), found.changing, found.stretches.len())
}

/// The schedule that the search begins with; what it finds ends no later.
pub(super) fn first(work: &Workload, calendar: &Calendar) -> Option<Schedule> {
    let rules = first_rules(work, &ranks(work, calendar), calendar);
    schedule(work, calendar, rules.first()?)
}

/// The best schedule that was found with its rule, and what no plan can beat; `None` where there is none within the most
/// evenings.
pub(super) fn search(work: &Workload, calendar: &Calendar) -> Option<((Rule, Schedule), Seconds)> {
    let weights = ranks(work, calendar);
    let mut search = Search { work, calendar, looks: 0, best: None };
    for rule in first_rules(work, &weights, calendar) {
        if !search.consider(rule) {
            break;
        }
    }
    let bound = bound(work, calendar, calendar.worked(search.best.as_ref()?.1.finish));
    search.improve(&weights, &bound);
    Some((search.best?, bound.end))
}

struct Search<'a> {
    work: &'a Workload,
    calendar: &'a Calendar,
    looks: u64,
    best: Option<(Rule, Schedule)>,
}

impl Search<'_> {
    /// Makes a schedule by a rule and keeps the better one; `false` where the search has looked long enough.
    fn consider(&mut self, rule: Rule) -> bool {
        let found = schedule(self.work, self.calendar, &rule);
        self.looks += found.as_ref().map_or(self.work.most_looks, |found| found.looks);
        let bad = |found: &Schedule| badness(found, self.calendar);
        if let Some(found) = found
            && self.best.as_ref().is_none_or(|(_, best)| bad(&found) <= bad(best))
        {
            self.best = Some((rule, found));
        }
        self.looks < self.work.most_looks
    }

    /// Looks for better ones, until none can be better.
    fn improve(&mut self, weights: &[Seconds], bound: &Bound) {
        for rule in by_due(self.work, self.calendar, &bound.due) {
            if !self.consider(rule) {
                return;
            }
        }
        let mut random = Random::new(SEED);
        for turn in 0..MOST_TRIES {
            let Some((rule, found)) = &self.best else { return };
            if self.calendar.worked(found.finish) <= bound.end {
                return;
            }
            let rule = match turn % 3 {
                0 => shaken(rule, weights, &mut random),
                1 => moved(rule, found, self.work, &mut random),
                _ => shifted(rule, found, self.work, &mut random),
            };
            if !self.consider(rule) {
                return;
            }
        }
    }
}

/// What must be done first for the earliest end that may be possible goes first.
fn by_due(work: &Workload, calendar: &Calendar, due: &[Seconds]) -> Vec<Rule> {
    let last = due.iter().max().copied().unwrap_or_default();
    let of = |bundle: &Bundle| last - due.get(bundle.passes.start).copied().unwrap_or_default();
    let plain = Rule::plain(work.bundles.iter().map(of).collect());
    let hour = calendar.usual() / 4;
    let Habits { least_piece, patience, .. } = work.habits;
    let keeps = [0, hour, 4 * hour, 40 * hour].into_iter();
    let mut rules: Vec<Rule> =
        keeps.flat_map(|keep| [0, hour].map(|worth_spraying| Rule { keep, worth_spraying, ..plain.clone() })).collect();
    rules.push(Rule { keep: hour, least_piece, ..plain.clone() });
    rules.push(Rule { keep: hour, least_piece, patience, ..plain });
    rules
}

/// The order of a schedule as weights, with all that is left of a unit from some time on moved to another.
pub(super) fn shifted(rule: &Rule, found: &Schedule, work: &Workload, random: &mut Random) -> Rule {
    let mut rule = Rule { weights: times(found, work), keep: rule.keep.min(MOST_KEEP), ..rule.clone() };
    let begin = found.stretches.first().map_or(0, |first| first.start);
    let through = found.finish.saturating_sub(begin);
    let unit = usize::try_from(random.below(work.models.len() as u64)).unwrap_or_default();
    let from = 2 * found.finish - (begin + random.below(through.max(1)));
    let reach = through / (1 + random.below(32)) + 1;
    let by = random.below(2 * reach);
    for (weight, bundle) in rule.weights.iter_mut().zip(&work.bundles) {
        let of_unit = work.passes.get(bundle.passes.start).is_some_and(|pass| pass.unit == unit);
        if of_unit && *weight <= from {
            *weight = (*weight + by).saturating_sub(reach);
        }
    }
    rule
}

/// The order of a schedule as weights.
pub(super) fn times(found: &Schedule, work: &Workload) -> Vec<Seconds> {
    let mut weights = vec![0; work.bundles.len()];
    for stretch in found.stretches.iter().rev() {
        if let Deed::Paint { pass, .. } = stretch.deed
            && let Some(pass) = work.passes.get(pass)
        {
            weights.iter_mut().skip(pass.bundle).take(1).for_each(|weight| *weight = 2 * found.finish - stretch.start);
        }
    }
    weights
}

/// The order of a schedule as weights, with some bundles moved to another time.
pub(super) fn moved(rule: &Rule, found: &Schedule, work: &Workload, random: &mut Random) -> Rule {
    let mut weights = times(found, work);
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
