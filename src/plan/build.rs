//! From an army to its workload: passes, and bundles that go into an evening.

use std::ops::{Range, RangeInclusive};
use std::sync::Arc;

use super::Seconds;
use super::calendar::Calendar;
use super::hands::{Changes, Habits, Kit, Tool};
use super::order::{Order, Rests, SITTING};
use super::search::most_looks;
use super::usual;
use super::workload::{Bundle, Link, Pass, Workload};
use crate::film::Conditions;
use crate::guide::{Army, Scheme, Step};

/// More passes than this are not planned; an army of a hundred schemes has them.
pub(super) const MOST_PASSES: usize = 4000;

/// Why an army's work can't be laid out over its evenings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Trouble {
    /// There are too many coats.
    TooManyPasses,
    /// One coat of one model is longer than an evening.
    CoatTooLong {
        /// Whose.
        unit: usize,
        /// Of which step.
        step: usize,
        /// How long it takes with setting up and cleaning.
        takes: Seconds,
    },
}

/// Something that would be on one evening and does not go into it; the plan splits it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Split {
    /// The unit.
    pub(super) unit: usize,
    /// The first step.
    pub(super) first: usize,
    /// The last step.
    pub(super) last: usize,
    /// Whether all models were to stand on one evening.
    pub(super) whole: bool,
    /// Whether a mask lies over night because of it.
    pub(super) masked: bool,
    /// How long it takes for all models.
    pub(super) takes: Seconds,
    /// How many models go into an evening.
    pub(super) fits: u32,
}

/// The workload of an army, without evenings as one long evening.
///
/// # Errors
/// Why it can't be laid out.
pub(super) fn workload(army: &Army, conditions: &Conditions, calendar: Option<&Calendar>) -> Result<Workload, Trouble> {
    workload_and_splits(army, conditions, calendar, Rests::Careful).map(|(work, _)| work)
}

/// The same, with what had to be split.
///
/// # Errors
/// Why it can't be laid out.
pub(super) fn workload_and_splits(
    army: &Army,
    conditions: &Conditions,
    calendar: Option<&Calendar>,
    rests: Rests,
) -> Result<(Workload, Vec<Split>), Trouble> {
    let length = calendar.map_or(Seconds::MAX, Calendar::longest);
    let mut build = Build::new(army, conditions, length);
    let mut known: Vec<(&Arc<Scheme>, Order)> = Vec::new();
    for (at, unit) in army.units.iter().enumerate() {
        if !known.iter().any(|(scheme, _)| Arc::ptr_eq(scheme, &unit.scheme)) {
            known.push((&unit.scheme, Order::of(&unit.scheme, conditions, rests)));
        }
        let order = known.iter().find(|(scheme, _)| Arc::ptr_eq(scheme, &unit.scheme));
        if let Some((scheme, order)) = order {
            build.unit(at, scheme, order)?;
        }
    }
    Ok((build.work, build.splits))
}

struct Build<'c> {
    conditions: &'c Conditions,
    length: Seconds,
    work: Workload,
    splits: Vec<Split>,
}

impl<'c> Build<'c> {
    fn new(army: &Army, conditions: &'c Conditions, length: Seconds) -> Self {
        let work = Workload {
            passes: Vec::new(),
            bundles: Vec::new(),
            lots: Vec::new(),
            masks: Vec::new(),
            kits: Vec::new(),
            changes: Changes::of(&conditions.bench),
            habits: Habits::of(&conditions.bench),
            most_looks: most_looks(conditions.armies),
            models: army.units.iter().map(|unit| unit.models).collect(),
        };
        Self { conditions, length, work, splits: Vec::new() }
    }

    fn unit(&mut self, unit: usize, scheme: &Scheme, order: &Order) -> Result<(), Trouble> {
        let mut steps: Vec<Range<usize>> = Vec::with_capacity(scheme.steps.len());
        for (at, step) in scheme.steps.iter().enumerate() {
            let coats = usize::try_from(step.coats).unwrap_or(usize::MAX);
            if self.work.passes.len().saturating_add(coats) > MOST_PASSES {
                return Err(Trouble::TooManyPasses);
            }
            let start = self.work.passes.len();
            self.passes(unit, (scheme, at, step), order, &steps);
            steps.push(start..self.work.passes.len());
        }
        let mut at = 0;
        while at < steps.len() {
            let from = |ranges: &[RangeInclusive<usize>]| {
                ranges.iter().find(|range| *range.start() == at).map(|range| at..*range.end() + 1)
            };
            let mut wish = |ranges| from(ranges).and_then(|wished| self.wish(&steps, wished));
            let wished = wish(&order.masked).or_else(|| wish(&order.wished));
            let tied = || from(&order.tied);
            at = match wished.or_else(|| tied().and_then(|tied| self.tie(scheme, &steps, tied))) {
                Some(next) => next,
                None => self.step(scheme, order, &steps, at)?,
            };
        }
        order.masks.iter().for_each(|mask| self.mask(unit, &steps, mask));
        Ok(())
    }

    fn passes(
        &mut self,
        unit: usize,
        (scheme, at, step): (&Scheme, usize, &Step),
        order: &Order,
        steps: &[Range<usize>],
    ) {
        let kit = self.kit(step);
        let each = usual::each(scheme, step, &self.conditions.bench);
        let last_of = |before: &usize| steps.get(*before).and_then(|range| range.end.checked_sub(1));
        let before = order.before.get(at).map(Vec::as_slice).unwrap_or_default();
        let links = before.iter().filter_map(|(before, rest)| Some(Link { pass: last_of(before)?, rest: *rest }));
        let mut links: Vec<Link> = links.collect();
        let between = order.between.get(at).copied().unwrap_or_default();
        let rest = order.rest.get(at).copied().unwrap_or_default();
        for coat in 1..=step.coats.max(1) {
            let own = self.work.passes.len();
            let rest = if coat == step.coats { rest } else { between };
            let unbroken = step.together && coat > 1;
            let together = step.together;
            self.work.passes.push(Pass { unit, step: at, coat, each, kit, links, rest, bundle: 0, together, unbroken });
            links = vec![Link { pass: own, rest: between }];
        }
    }

    fn kit(&mut self, step: &Step) -> usize {
        let kit = Kit::of(step);
        let known = self.work.kits.iter().position(|known| known.is_same(&kit));
        known.unwrap_or_else(|| {
            self.work.kits.push(kit);
            self.work.kits.len() - 1
        })
    }

    /// A mask that had better not lie over night, and whether it must.
    fn mask(&mut self, unit: usize, steps: &[Range<usize>], mask: &RangeInclusive<usize>) {
        let (first, last) = (*mask.start(), *mask.end());
        let Some((on, off)) = steps.get(first).zip(steps.get(last)) else { return };
        let passes = on.start..off.end;
        let models = self.work.models.get(unit).copied().unwrap_or_default();
        let fits = self.work.most_models(&passes, self.length);
        // Where not even the last coat and the tape that comes off go into one, that is told already.
        let told = self.splits.iter().any(|split| (split.unit, split.last) == (unit, last));
        if fits < models && !told {
            let takes = self.work.span(&passes, models);
            self.splits.push(Split { unit, first, last, whole: false, masked: true, takes, fits });
        }
        self.work.masks.push((passes.start, passes.end.saturating_sub(1)));
    }

    /// Steps that had better stand on one evening, as one bundle if all models go into it.
    fn wish(&mut self, steps: &[Range<usize>], wished: Range<usize>) -> Option<usize> {
        let range = steps.get(wished.start)?.start..steps.get(wished.end.checked_sub(1)?)?.end;
        let fits = self.work.most_models(&range, self.length);
        let all = self.work.models_of(self.work.passes.get(range.start)?);
        (fits >= all).then(|| self.push(range, Some(fits)))?;
        Some(wished.end)
    }

    /// Steps that belong on one evening, as one bundle if at least one model goes into it.
    fn tie(&mut self, scheme: &Scheme, steps: &[Range<usize>], tied: Range<usize>) -> Option<usize> {
        let whole = scheme.steps.get(tied.clone())?.iter().any(|step| step.together);
        let end = steps.get(tied.end.checked_sub(1)?)?.end;
        let range = steps.get(tied.start)?.start..end;
        self.bundle(range, (tied.start, tied.end - 1), whole).then_some(tied.end)
    }

    /// The coats of one step: one bundle if all models are done together, or if nobody gets up between the coats of one of
    /// them; otherwise each for itself.
    fn step(&mut self, scheme: &Scheme, order: &Order, steps: &[Range<usize>], at: usize) -> Result<usize, Trouble> {
        let (Some(step), Some(range)) = (scheme.steps.get(at), steps.get(at)) else { return Ok(at + 1) };
        if step.together && self.bundle(range.clone(), (at, at), true) {
            return Ok(at + 1);
        }
        let sits = order.between.get(at).is_some_and(|between| *between <= SITTING);
        if sits && !step.together && self.chained(range) {
            self.push(range.clone(), None);
            return Ok(at + 1);
        }
        for pass in range.clone() {
            let single = pass..pass + 1;
            let takes = self.work.span(&single, 1);
            if takes > self.length {
                let unit = self.work.passes.get(pass).map_or(0, |pass| pass.unit);
                return Err(Trouble::CoatTooLong { unit, step: at, takes });
            }
            let sprays =
                matches!(self.work.passes.get(pass).map(|pass| self.work.tool(pass)), Some(Tool::Airbrush | Tool::Can));
            let run = sprays.then(|| self.work.most_models(&single, self.length));
            self.work.passes.iter_mut().skip(pass).take(1).for_each(|pass| pass.unbroken = false);
            self.push(single, run);
        }
        Ok(at + 1)
    }

    /// Whether passes are coats that a model gets on one evening, where that holds them: brushed, so that any number of models
    /// may be done in one go, and those that are left on another.
    fn chained(&self, range: &Range<usize>) -> bool {
        let sprays = |pass: &Pass| matches!(self.work.tool(pass), Tool::Airbrush | Tool::Can);
        range.len() > 1 && !self.work.slice(range).iter().any(sprays) && self.work.most_models(range, self.length) > 0
    }

    /// Makes a bundle, split by models where it must be; `false` where not even one model goes into an evening.
    fn bundle(&mut self, range: Range<usize>, (first, last): (usize, usize), whole: bool) -> bool {
        let Some(pass) = self.work.passes.get(range.start) else { return false };
        let (unit, models) = (pass.unit, self.work.models_of(pass));
        let fits = self.work.most_models(&range, self.length);
        if fits < models && (whole || fits == 0) {
            let takes = self.work.span(&range, if whole { models } else { 1 });
            self.splits.push(Split { unit, first, last, whole, masked: false, takes, fits });
        }
        if fits > 0 {
            self.push(range, Some(fits));
        }
        fits > 0
    }

    fn push(&mut self, passes: Range<usize>, run: Option<u32>) {
        let own = self.work.bundles.len();
        self.work.passes.iter_mut().skip(passes.start).take(passes.len()).for_each(|pass| pass.bundle = own);
        self.work.bundles.push(Bundle { passes, run });
    }
}
