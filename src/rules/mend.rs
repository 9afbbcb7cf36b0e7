//! Mends that are worked out: a step is tried at every other place, the film is walked again, and the nearest
//! place is named at which nothing is wrong that was not wrong before.

use std::collections::BTreeSet;

use super::told::Fault;
use super::{RULES, Rule, Trial, waivers};
use crate::film::Conditions;
use crate::guide::{Guide, Scheme};
use crate::report::{Finding, Level, wording};

/// A rule that is broken, and the step that breaks it.
type Broken = BTreeSet<(&'static str, usize)>;

/// The findings of faults, with the mends of ordering worked out.
pub(super) fn mended(trial: &Trial<'_>, order: &[usize], faults: Vec<Fault>) -> Vec<Finding> {
    let wrong = if faults.iter().any(|fault| fault.rule.ordering) { broken(trial, order) } else { Broken::new() };
    let mend = |fault: Fault| {
        let mut finding = fault.finding?;
        if fault.rule.ordering
            && let Some(mend) = nearest_move(trial, order, (fault.rule, fault.step, fault.clash), &wrong)
        {
            finding.mend = mend;
        }
        Some(finding)
    };
    faults.into_iter().filter_map(mend).collect()
}

/// The ordering rules that are broken in an order, leaving aside notes and what is waived.
fn broken(trial: &Trial<'_>, order: &[usize]) -> Broken {
    let faults = trial.look_in(order, |rule| rule.ordering && rule.check.level != Level::Note, false);
    let counts = faults.iter().filter(|fault| !waivers::waives(trial.scheme, fault.step, fault.rule.check.id));
    counts.map(|fault| (fault.rule.check.id, fault.step)).collect()
}

/// The nearest move of the step, or of the one that it clashes with, that mends the fault and breaks nothing.
fn nearest_move(
    trial: &Trial<'_>,
    order: &[usize],
    (rule, step, clash): (&'static Rule, usize, Option<usize>),
    wrong: &Broken,
) -> Option<String> {
    let mut moves: Vec<Move> =
        [Some(step), clash].into_iter().flatten().flat_map(|moved| Move::all_of(moved, order)).collect();
    moves.sort_by_key(|one| (one.distance(), one.step != step, one.to < one.from));
    moves.into_iter().find_map(|one| {
        let tried = one.apply(order);
        if !keeps_after(trial.scheme, &tried) {
            return None;
        }
        let left = broken(trial, &tried);
        let mends = !left.contains(&(rule.check.id, step)) && left.is_subset(wrong);
        mends.then(|| one.in_words(trial.scheme, &tried, step))
    })
}

/// An order of the steps with fewer ordering faults, reached by one move after the other; `None`: none was found,
/// or nothing is wrong.
///
/// Each round takes the single move after which the fewest errors, then warnings, are left, the shortest first.
pub fn propose_order(guide: &Guide, scheme: &Scheme, conditions: &Conditions) -> Option<Vec<usize>> {
    let trial = Trial { guide, scheme, conditions };
    let mut order: Vec<usize> = (0..scheme.steps.len()).collect();
    let mut weight = weigh(&broken(&trial, &order));
    let mut changed = false;
    while weight > (0, 0) {
        let moves = order.iter().flat_map(|step| Move::all_of(*step, &order));
        let tried = moves.filter_map(|one| {
            let tried = one.apply(&order);
            keeps_after(scheme, &tried).then(|| (weigh(&broken(&trial, &tried)), one.distance(), tried))
        });
        let best = tried.min_by_key(|(weight, distance, _)| (*weight, *distance));
        let Some((better, _, next)) = best.filter(|(better, ..)| *better < weight) else { break };
        (weight, order, changed) = (better, next, true);
    }
    changed.then_some(order)
}

/// How many errors and how many warnings.
fn weigh(broken: &Broken) -> (usize, usize) {
    let level = |id: &str| RULES.iter().find(|rule| rule.check.id == id).map(|rule| rule.check.level);
    let errors = broken.iter().filter(|(id, _)| level(id) == Some(Level::Error)).count();
    (errors, broken.len() - errors)
}

/// Whether every step comes after the steps that it names.
fn keeps_after(scheme: &Scheme, order: &[usize]) -> bool {
    let place = |step: usize| order.iter().position(|one| *one == step);
    order.iter().enumerate().all(|(at, step)| {
        let earlier = scheme.steps.get(*step).map(|step| step.after.as_slice()).unwrap_or_default();
        earlier.iter().all(|one| place(*one).is_none_or(|place| place < at))
    })
}

/// A step that is taken out of its place and put into another.
#[derive(Debug, Clone, Copy)]
struct Move {
    step: usize,
    from: usize,
    to: usize,
}

impl Move {
    fn all_of(step: usize, order: &[usize]) -> impl Iterator<Item = Self> {
        let from = order.iter().position(|one| *one == step);
        let places = 0..order.len();
        places.filter_map(move |to| from.filter(|from| *from != to).map(|from| Self { step, from, to }))
    }

    fn distance(self) -> usize {
        self.from.abs_diff(self.to)
    }

    fn apply(self, order: &[usize]) -> Vec<usize> {
        let mut moved: Vec<usize> = order.iter().copied().filter(|step| *step != self.step).collect();
        moved.insert(self.to.min(moved.len()), self.step);
        moved
    }

    /// The move as a mend on the step that has the finding.
    fn in_words(self, scheme: &Scheme, moved: &[usize], step: usize) -> String {
        let title = |index: usize| match scheme.steps.get(index) {
            Some(_) if index == step => "this step".to_owned(),
            Some(step) => wording::quoted(&step.title),
            None => String::new(),
        };
        let what = if self.step == step { "it".to_owned() } else { title(self.step) };
        let before = self.to.checked_sub(1).and_then(|at| moved.get(at));
        let next = moved.get(self.to + 1).filter(|_| self.to < self.from);
        match (next, before) {
            (Some(next), _) => format!("put {what} before {}", title(*next)),
            (None, Some(before)) => format!("put {what} after {}", title(*before)),
            (None, None) => format!("put {what} first"),
        }
    }
}
