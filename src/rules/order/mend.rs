//! Mends that are worked out: a step is tried at other places, the film is walked again, and the move that a painter
//! would make is named: the smallest piece of work, the shortest way, and nothing wrong that was not wrong before.

use std::collections::BTreeSet;

use super::keeps::{ACROSS, Wrong, lost};
use super::moves::{Move, keeps_after, keeps_masks, keeps_powder, keeps_sequences};
use crate::film::Film;
use crate::report::{Finding, Level};
use crate::rules::Rule;
use crate::rules::judge::told::Fault;
use crate::rules::judge::waivers;
use crate::rules::order::trial::Trial;

/// All that is wrong with an order.
pub(super) type Broken = BTreeSet<Wrong>;

/// The findings of faults, with the mends of ordering worked out.
pub(in crate::rules) fn mended(trial: &Trial<'_>, order: &[usize], faults: Vec<Fault>) -> Vec<Finding> {
    let wrong = if faults.iter().any(Fault::may_move) { broken(trial, order) } else { Broken::new() };
    let mend = |fault: Fault| {
        let (may_move, own_first) = (fault.may_move(), fault.own_first);
        let mut finding = fault.finding?;
        if may_move && let Some(mend) = nearest_move(trial, order, (fault.rule, fault.step, fault.clash), &wrong) {
            finding.mend = if own_first { format!("{}, or {mend}", finding.mend) } else { mend };
        }
        Some(finding)
    };
    faults.into_iter().filter_map(mend).collect()
}

/// What is wrong with an order: a mend must not break any other rule, and nothing may be lost by it.
pub(super) fn broken(trial: &Trial<'_>, order: &[usize]) -> Broken {
    let film = Film::walk(trial.scheme, order, trial.conditions);
    let faults = trial.faults_of(&film);
    faults.iter().map(|fault| (fault.rule.check.id, fault.step, 0)).chain(lost(&film)).collect()
}

/// The move of the step, or of the one that it clashes with, that mends the fault and breaks nothing.
fn nearest_move(
    trial: &Trial<'_>,
    order: &[usize],
    (rule, step, clash): (&'static Rule, usize, Option<usize>),
    wrong: &Broken,
) -> Option<String> {
    let mut moves: Vec<Move> =
        [Some(step), clash].into_iter().flatten().flat_map(|moved| Move::all_of(moved, order)).collect();
    moves.retain(|one| {
        let scheme = trial.scheme;
        keeps_masks(scheme, order, *one) && keeps_sequences(scheme, order, *one) && keeps_powder(scheme, order, *one)
    });
    moves.sort_by_key(|one| (one.distance(), one.bulk(trial.scheme), one.step != step, one.to < one.from));
    for one in moves {
        let tried = one.apply(order);
        if !keeps_after(trial.scheme, &tried) {
            continue;
        }
        if !trial.budget.spend() {
            return None;
        }
        let left = broken(trial, &tried);
        let across = one.step == step && left.iter().any(|(what, late, _)| *what == ACROSS && *late == step);
        let mends = !across && !left.contains(&(rule.check.id, step, 0)) && !trial.still_tells(&tried, rule, step);
        if mends && left.is_subset(wrong) {
            return Some(one.in_words(trial.scheme, &tried, step));
        }
    }
    None
}

impl Trial<'_> {
    /// Whether a rule that only notes something would still do so; what is graver stands in [`broken`].
    fn still_tells(&self, order: &[usize], rule: &'static Rule, step: usize) -> bool {
        rule.check.level == Level::Note && {
            let film = Film::walk(self.scheme, order, self.conditions);
            self.look_at(&film, |one| one.check.id == rule.check.id, false).iter().any(|fault| fault.step == step)
        }
    }

    /// What the rules tell of a film, leaving aside notes and what is waived.
    pub(super) fn faults_of(&self, film: &Film<'_>) -> Vec<Fault> {
        let mut faults = self.look_at(film, |rule| rule.check.level != Level::Note, false);
        faults.retain(|fault| !waivers::waives(self.scheme, fault.step, fault.rule.check.id));
        faults
    }
}
