//! A better order for all steps of a scheme: the natural order of the stages, mended where the film asks for another.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use super::keeps::lost;
use super::mend::broken;
use super::moves::{Move, keeps_after, keeps_sequences};
use super::natural::Natural;
use crate::film::{Conditions, Film};
use crate::guide::{Guide, Scheme};
use crate::report::{Level, Registry};
use crate::rules::judge::told::Fault;
use crate::rules::order::budget::Budget;
use crate::rules::order::trial::Trial;
use crate::rules::{RULES, Surroundings};

/// What is wrong with an order, the worst first: errors, warnings, what is lost, pairs of stages the wrong way round.
type Weight = [usize; 4];

/// An order of the steps with fewer faults, or the natural one where the author's is a jumble; `None`: none was found, or
/// nothing is wrong with the order.
///
/// The search starts from the author's own order, and of a jumble from the natural order of the stages too. Each round
/// takes the single move of a step that is in a fault after which the least is wrong, and never comes back to an order
/// that was there before. A move that makes nothing better is taken too, because two steps may have to move before either
/// helps; the best order of all rounds is the answer, if it breaks no rule on a step that did not break it before and
/// nothing is lost by it. In the end each step goes back to where it was, if that makes nothing worse and the order was no
/// jumble. Where no fault asks for another order, the author's holds, however unusual it is.
pub fn propose_order(
    guide: &Guide,
    scheme: &Scheme,
    conditions: &Conditions,
    registry: Registry,
) -> Option<Vec<usize>> {
    let around = Surroundings::of(guide, scheme, registry);
    let budget = Budget::of(scheme.steps.len());
    let trial = Trial { around: &around, scheme, conditions, budget: &budget };
    let own: Vec<usize> = (0..scheme.steps.len()).collect();
    let film = Film::walk(scheme, &own, conditions);
    let search = Search::of(trial, &film, &own);
    if !search.jumbled && !trial.faults_of(&film).iter().any(Fault::may_move) {
        return None;
    }
    let first = search.judged(&own).0;
    let sorted = search.jumbled.then(|| together(scheme, search.natural.sorted(&own)));
    let tries = sorted.into_iter().chain([own.clone()]).filter_map(|start| search.settle(start, first));
    // In a jumble no step has a place of its author's that is worth keeping.
    if search.jumbled {
        return tries.min_by_key(|(weight, _)| *weight).map(|(_, order)| order).filter(|order| *order != own);
    }
    let best = tries.min_by_key(|(weight, order)| (*weight, order.len() - staying(order).len()));
    best.map(|(weight, order)| search.with_fewest_moved(weight, order)).filter(|order| *order != own)
}

/// How an order of the steps compares with the author's own: `Less` where less is wrong with it; `None` where it breaks
/// what the author keeps.
pub fn compare_orders(
    guide: &Guide,
    scheme: &Scheme,
    conditions: &Conditions,
    registry: Registry,
    order: &[usize],
) -> Option<Ordering> {
    let own: Vec<usize> = (0..scheme.steps.len()).collect();
    if order == own {
        return Some(Ordering::Equal);
    }
    let around = Surroundings::of(guide, scheme, registry);
    let budget = Budget::of(scheme.steps.len());
    let trial = Trial { around: &around, scheme, conditions, budget: &budget };
    let film = Film::walk(scheme, &own, conditions);
    let search = Search::of(trial, &film, &own);
    let may_be = keeps_after(scheme, order) && (search.jumbled || search.breaks_nothing_new(order));
    may_be.then(|| search.judged(order).0.cmp(&search.judged(&own).0))
}

/// The steps of an order that can stay where the author has them: the most that stand in it as they did.
fn staying(order: &[usize]) -> BTreeSet<usize> {
    // Of each place the length of the longest such row that ends there, and the place before it in that row.
    let mut rows: Vec<(usize, Option<usize>)> = Vec::with_capacity(order.len());
    for (at, step) in order.iter().enumerate() {
        let before = order.iter().zip(&rows).enumerate().take(at).filter(|(_, (other, _))| *other < step);
        let longest = before.max_by_key(|(_, (_, (length, _)))| *length);
        rows.push(longest.map_or((1, None), |(place, (_, (length, _)))| (length + 1, Some(place))));
    }
    let last = rows.iter().enumerate().max_by_key(|(_, (length, _))| *length).map(|(place, _)| place);
    let row = std::iter::successors(last, |place| rows.get(*place).and_then(|(_, before)| *before));
    row.filter_map(|place| order.get(place).copied()).collect()
}

/// An order in which the steps of each use of a sequence stand together, as they are in it, where the first of them stood.
fn together(scheme: &Scheme, order: Vec<usize>) -> Vec<usize> {
    let use_of = |step: usize| scheme.steps.get(step).and_then(|step| step.via.as_ref()).map(|via| via.stem.as_str());
    let mut whole: Vec<usize> = Vec::with_capacity(order.len());
    for step in order {
        match use_of(step) {
            None => whole.push(step),
            Some(_) if whole.contains(&step) => {}
            Some(stem) => whole.extend((0..scheme.steps.len()).filter(|other| use_of(*other) == Some(stem))),
        }
    }
    whole
}

/// How long to look for a better order: rounds for each step of the scheme.
const ROUNDS_PER_STEP: usize = 3;

/// So many faults of order at least does a jumble have,
const JUMBLE_FAULTS: usize = 2;

/// and one in so many steps.
const FAULTLESS_STEPS: usize = 6;

struct Search<'a> {
    trial: Trial<'a>,
    natural: Natural<'a>,
    /// Whether the author's own order is none: then only what is left over counts, and not whose fault it is.
    jumbled: bool,
    /// What is wrong with the author's own order.
    wrong: super::mend::Broken,
}

impl<'a> Search<'a> {
    fn of(trial: Trial<'a>, film: &'a Film<'a>, own: &[usize]) -> Self {
        let natural = Natural::of(film, trial.conditions);
        let wrong = broken(&trial, own);
        // One mistake is a slip, whatever the order looks like.
        let faults = trial.faults_of(film).iter().filter(|fault| fault.may_move()).count();
        let losses = wrong.iter().filter(|(what, ..)| !is_rule(what)).count();
        let jumbled = natural.is_jumbled(own) && faults + losses >= JUMBLE_FAULTS.max(own.len() / FAULTLESS_STEPS);
        Self { trial, natural, jumbled, wrong }
    }

    /// The best order that moves lead to from a start, if it is better than the author's.
    fn settle(&self, start: Vec<usize>, own: Weight) -> Option<(Weight, Vec<usize>)> {
        let mut best: Option<(Weight, Vec<usize>)> = None;
        let mut seen = BTreeSet::from([start.clone()]);
        let mut order = start;
        for _ in 0..ROUNDS_PER_STEP * order.len() {
            let (weight, faulty) = self.judged(&order);
            let better = weight < best.as_ref().map_or(own, |(weight, _)| *weight);
            let mends = self.jumbled || weight[..2] < own[..2];
            if better && mends && (self.jumbled || self.breaks_nothing_new(&order)) {
                best = Some((weight, order.clone()));
            }
            let sound = weight[..3] == [0, 0, 0];
            let next = if sound { None } else { self.best_move(&order, &faulty, &seen) };
            let Some(next) = next else { break };
            seen.insert(next.clone());
            order = next;
        }
        best
    }

    /// An order without the moves that helped nothing: the search tries some on its way, and each is a file with a new number.
    fn with_fewest_moved(&self, weight: Weight, mut order: Vec<usize>) -> Vec<usize> {
        // The natural order, which weighs last, is a jumble's alone: any other holds as its author has it.
        let counts = weight.len() - 1;
        loop {
            let staying = staying(&order);
            // Between its neighbours among those that stay a step stands where its author had it.
            let is_home = |one: &Move| {
                let rest = one.apply(&order);
                let stays = |step: &&usize| staying.contains(*step);
                rest.iter().take(one.to).rfind(stays).is_none_or(|other| *other < one.step)
                    && rest.iter().skip(one.to + 1).find(stays).is_none_or(|other| *other > one.step)
            };
            let strays = order.iter().filter(|step| !staying.contains(*step));
            let moves = strays.flat_map(|step| Move::all_of(*step, &order)).filter(is_home);
            let back = moves.filter(|one| keeps_sequences(self.trial.scheme, &order, *one)).find_map(|one| {
                let tried = one.apply(&order);
                let as_good = || self.judged(&tried).0.iter().take(counts).le(weight.iter().take(counts));
                let sound = || as_good() && self.breaks_nothing_new(&tried);
                (keeps_after(self.trial.scheme, &tried) && self.trial.budget.spend() && sound()).then_some(tried)
            });
            match back {
                Some(back) => order = back,
                None => return order,
            }
        }
    }

    /// Whether an order breaks no rule of order on another step than the author's does, and loses nothing more.
    fn breaks_nothing_new(&self, order: &[usize]) -> bool {
        let rules = |broken: &super::mend::Broken| -> BTreeSet<super::keeps::Wrong> {
            broken.iter().filter(|(what, ..)| is_of_order(what) || !is_rule(what)).copied().collect()
        };
        rules(&broken(&self.trial, order)).is_subset(&rules(&self.wrong))
    }

    /// What is wrong with an order, and the steps that have to do with it.
    fn judged(&self, order: &[usize]) -> (Weight, BTreeSet<usize>) {
        let film = Film::walk(self.trial.scheme, order, self.trial.conditions);
        let faults = self.trial.faults_of(&film);
        // Of times only errors count: a wait that is too short somewhere else is mended by waiting.
        let sum = |level: Level, all: bool| -> usize {
            let of_level = faults.iter().filter(|fault| fault.rule.check.level == level);
            of_level.filter(|fault| all || fault.rule.ordering).map(|fault| fault.extent).sum()
        };
        let lost = lost(&film);
        let new_losses = lost.difference(&self.wrong).count();
        let in_faults = faults
            .iter()
            .filter(|fault| fault.may_move() || (self.jumbled && fault.rule.ordering))
            .flat_map(Fault::steps);
        let in_losses =
            lost.iter().filter(|(what, ..)| *what != "open paint").flat_map(|(_, one, other)| [*one, *other]);
        let steps = in_faults.chain(in_losses).collect();
        ([sum(Level::Error, true), sum(Level::Warning, false), new_losses, self.natural.inversions(order).0], steps)
    }

    /// The single move of a step in some fault after which the least is wrong, the shortest of several, among the
    /// orders that were not seen yet.
    fn best_move(&self, order: &[usize], faulty: &BTreeSet<usize>, seen: &BTreeSet<Vec<usize>>) -> Option<Vec<usize>> {
        let moves = faulty.iter().flat_map(|step| Move::all_of(*step, order));
        let moves = moves.filter(|one| keeps_sequences(self.trial.scheme, order, *one));
        let tried = moves.filter_map(|one| {
            let tried = one.apply(order);
            let is_new = keeps_after(self.trial.scheme, &tried) && !seen.contains(&tried);
            (is_new && self.trial.budget.spend()).then(|| ((self.judged(&tried).0, one.distance()), tried))
        });
        tried.min_by_key(|(weight, _)| *weight).map(|(_, tried)| tried)
    }
}

/// Whether a name is that of a rule, and not of something that is lost.
fn is_rule(what: &str) -> bool {
    RULES.iter().any(|one| one.check.id == what)
}

/// Whether a name is that of a rule which another order could mend.
fn is_of_order(rule: &str) -> bool {
    RULES.iter().any(|one| one.ordering && one.check.id == rule)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_many_steps_as_possible_stay() {
        for (order, stays) in [
            (&[0, 1, 2][..], vec![0, 1, 2]),
            (&[0, 1, 3, 2, 5, 6, 4], vec![0, 1, 2, 5, 6]),
            (&[3, 0, 1, 2], vec![0, 1, 2]),
            (&[], vec![]),
        ] {
            let found = staying(order);
            assert_eq!(found.len(), stays.len(), "{order:?}: {found:?}");
            let kept: Vec<usize> = order.iter().copied().filter(|step| found.contains(step)).collect();
            assert!(kept.is_sorted(), "{kept:?}");
        }
    }
}
