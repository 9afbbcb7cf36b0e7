//! Mends that are worked out: a step is tried at every other place, the film is walked again, and the nearest
//! place is named at which nothing is wrong that was not wrong before.

use std::collections::BTreeSet;

use crate::film::{Coat, Conditions, Film, What};
use crate::guide::{Guide, Scheme};
use crate::report::{Finding, Level, Registry, wording};
use crate::rules::judge::told::Fault;
use crate::rules::judge::waivers;
use crate::rules::order::trial::Trial;
use crate::rules::varnishes::no_final_varnish::is_finish;
use crate::rules::{Rule, Surroundings};
use crate::trade::Zone;

/// A rule that is broken, and the step that breaks it; or something that is lost, and the area or step that loses it.
type Broken = BTreeSet<(&'static str, usize)>;

/// The findings of faults, with the mends of ordering worked out.
pub(in crate::rules) fn mended(trial: &Trial<'_>, order: &[usize], faults: Vec<Fault>) -> Vec<Finding> {
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

/// What is wrong with an order: a mend must not break any other rule, and nothing may be lost by it.
fn broken(trial: &Trial<'_>, order: &[usize]) -> Broken {
    let film = Film::walk(trial.scheme, order, trial.conditions);
    let faults = trial.faults_of(&film);
    faults.iter().map(|fault| (fault.rule.check.id, fault.step)).chain(lost(&film)).collect()
}

/// What no rule minds in every scheme, but nobody would give up for another order: areas whose paint no clear film closes
/// in the end, and steps whose colour lies buried under grit.
fn lost<'f>(film: &'f Film<'_>) -> impl Iterator<Item = (&'static str, usize)> + use<'f> {
    let areas = 0..film.scheme().areas.len();
    let coats = |area, zone| film.finished().coats(area, zone);
    let is_colour = |coat: &&Coat<'_>| matches!(coat.what, What::Colour | What::Shade | What::Tint);
    let open = areas.clone().filter(move |area| {
        let paint = coats(*area, Zone::Faces).filter(is_colour).rfind(|coat| !is_finish(coat) && !coat.is_clear_film());
        let clear = coats(*area, Zone::Faces).rfind(|coat| coat.is_clear_film());
        paint.is_some_and(|paint| clear.is_none_or(|clear| clear.position < paint.position))
    });
    let places = areas.flat_map(|area| Zone::ALL.iter().map(move |zone| (area, *zone)));
    let buried = places.flat_map(move |(area, zone)| {
        let grit = coats(area, zone).rfind(|coat| coat.what == What::Texture).map(|coat| coat.position);
        coats(area, zone).filter(is_colour).filter(move |coat| Some(coat.position) < grit).map(|coat| coat.step)
    });
    open.map(|area| ("open paint", area)).chain(buried.map(|step| ("buried colour", step)))
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

/// An order of the steps with fewer faults, reached by one move after the other; `None`: none was found, or nothing is
/// wrong with the order.
///
/// Each round takes the single move after which the fewest errors, then warnings, are left, the shortest first,
/// and never comes back to an order that was there before. A move that makes nothing better is taken too, because
/// two steps may have to move before either helps; the best order of all rounds is the answer, if it breaks no rule on
/// a step that did not break it before.
pub fn propose_order(
    guide: &Guide,
    scheme: &Scheme,
    conditions: &Conditions,
    registry: Registry,
) -> Option<Vec<usize>> {
    let around = Surroundings::of(guide, scheme, registry);
    let trial = Trial { around: &around, scheme, conditions };
    let start: Vec<usize> = (0..scheme.steps.len()).collect();
    if !trial.faults_in(&start).iter().any(|fault| fault.rule.ordering) {
        return None;
    }
    let wrong = broken(&trial, &start);
    let first = trial.weigh(&start);
    let mut best = (first, start.clone());
    let mut seen = BTreeSet::from([start.clone()]);
    let mut order = start;
    for _ in 0..ROUNDS_PER_STEP * scheme.steps.len() {
        if best.0 == (0, 0) {
            break;
        }
        let Some((weight, next)) = best_move(&trial, &order, &seen) else { break };
        seen.insert(next.clone());
        if weight < best.0 && broken(&trial, &next).is_subset(&wrong) {
            best = (weight, next.clone());
        }
        order = next;
    }
    (best.0 < first).then_some(best.1)
}

/// How long to look for a better order: rounds for each step of the scheme.
const ROUNDS_PER_STEP: usize = 3;

/// The single move after which the least is wrong, the shortest of several, among the orders that were not seen yet.
fn best_move(trial: &Trial<'_>, order: &[usize], seen: &BTreeSet<Vec<usize>>) -> Option<((usize, usize), Vec<usize>)> {
    let moves = order.iter().flat_map(|step| Move::all_of(*step, order));
    let tried = moves.filter_map(|one| {
        let tried = one.apply(order);
        let is_new = keeps_after(trial.scheme, &tried) && !seen.contains(&tried);
        is_new.then(|| ((trial.weigh(&tried), one.distance()), tried))
    });
    tried.min_by_key(|(weight, _)| *weight).map(|((weight, _), tried)| (weight, tried))
}

impl Trial<'_> {
    /// How often the rules tell of errors in an order, and how often of warnings.
    fn weigh(&self, order: &[usize]) -> (usize, usize) {
        let faults = self.faults_in(order);
        let sum = |level: Level| {
            faults.iter().filter(|fault| fault.rule.check.level == level).map(|fault| fault.extent).sum()
        };
        (sum(Level::Error), sum(Level::Warning))
    }

    /// What the rules tell of an order, leaving aside notes and what is waived.
    fn faults_in(&self, order: &[usize]) -> Vec<Fault> {
        self.faults_of(&Film::walk(self.scheme, order, self.conditions))
    }

    fn faults_of(&self, film: &Film<'_>) -> Vec<Fault> {
        let mut faults = self.look_at(film, |rule| rule.check.level != Level::Note, false);
        faults.retain(|fault| !waivers::waives(self.scheme, fault.step, fault.rule.check.id));
        faults
    }
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
