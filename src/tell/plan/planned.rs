//! What an evening of a plan asks for, in the guide's own things: steps, mixes, where to stop. Pages, calendars and the
//! terminal tell it each in their way.

use std::sync::Arc;

use crate::bench::{Bench, Figure};
use crate::caution::StepCautions;
use crate::film::Reason;
use crate::guide::{Army, Mix, MixRow, Paint, Pot, Scheme, Step, Unit};
use crate::measure::{Date, exact};
use crate::plan::{Block, Evening, Plan, Task, Tool};
use crate::quantity::{By, MeasuredOut, PotNeed, PotUse, StepNeed};
use crate::tell::facts::{self, StepFact};
use crate::theme::Words;
use crate::work::{RestFor, Worked, WorkedScheme};

/// A plan, and the army and the schemes that it is about.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Planned<'a> {
    pub(crate) worked: &'a Worked,
    pub(crate) army: &'a Army,
    pub(crate) plan: &'a Plan,
}

/// One step of one unit, with everything that is known about it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct UnitStep<'a> {
    pub(crate) unit: usize,
    pub(crate) models: u32,
    pub(crate) scheme: &'a Scheme,
    pub(crate) at: usize,
    pub(crate) step: &'a Step,
    pub(crate) cautions: Option<&'a StepCautions>,
    pub(crate) need: Option<&'a StepNeed>,
    rest: Option<RestFor>,
}

impl UnitStep<'_> {
    /// What a coat of the step dries for when an evening is over: the next coat, or what its rest is for.
    pub(crate) fn dries_for(&self, coat: u32) -> Reason {
        let last = coat >= self.step.coats;
        self.rest.filter(|_| last).map_or(Reason::Recoat, |rest| rest.reason)
    }

    /// The step that waits for it, if its last coat is on.
    pub(crate) fn dries_before(&self, coat: u32) -> Option<&Step> {
        let rest = self.rest.filter(|_| coat >= self.step.coats)?;
        self.scheme.steps.get(rest.before?)
    }
}

/// What to mix for one step on one evening.
#[derive(Debug)]
pub(crate) struct Mixing<'a> {
    pub(crate) of: UnitStep<'a>,
    /// Whether it is one lot for all models and coats.
    pub(crate) lot: bool,
    /// How much in all, in ml, where the model's surface is known.
    pub(crate) ml: Option<f64>,
    pub(crate) parts: Vec<MixingPart>,
    /// What is to be said of how it is counted out; its word below `mix`: `near` the ratio, `sized`, or `poured`.
    pub(crate) counted: Option<&'static str>,
}

/// A pot that is mixed on one evening, for all steps of it that use it, or for all steps of all evenings.
#[derive(Debug)]
pub(crate) struct PotMixing<'a> {
    pub(crate) pot: Arc<Pot>,
    /// The steps that it is mixed for.
    pub(crate) steps: Vec<UnitStep<'a>>,
    /// How much in all, in ml, where it is known.
    pub(crate) ml: Option<f64>,
    /// What of that is reserve, in ml; 0 where it is not one lot for several models.
    pub(crate) reserve: f64,
    pub(crate) parts: Vec<MixingPart>,
    /// What is to be said of how it is counted out, as of a mix.
    pub(crate) counted: Option<&'static str>,
}

impl<'a> PotMixing<'a> {
    /// The steps that it is mixed for, each of a scheme together, for however many units.
    pub(crate) fn uses(&self) -> Vec<Vec<UnitStep<'a>>> {
        let mut uses: Vec<Vec<UnitStep<'a>>> = Vec::new();
        for of in &self.steps {
            let is_same = |known: &UnitStep<'_>| known.scheme.slug == of.scheme.slug && known.at == of.at;
            match uses.iter_mut().find(|known| known.iter().any(is_same)) {
                Some(known) => known.push(*of),
                None => uses.push(vec![*of]),
            }
        }
        uses
    }
}

/// What lies on the desk on one evening beside the paints.
#[derive(Debug)]
pub(crate) struct OnDesk<'a> {
    /// What it is, as the facts of the steps say it: `On the desk: Tufts (3 each)`.
    pub(crate) says: String,
    /// The steps that it is for.
    pub(crate) steps: Vec<UnitStep<'a>>,
}

/// What is measured out.
#[derive(Debug)]
pub(crate) enum Product {
    Paint(Arc<Paint>),
    Pot(Arc<Pot>),
}

impl Product {
    /// What it is called.
    pub(crate) fn name(&self) -> &str {
        match self {
            Self::Paint(paint) => &paint.name,
            Self::Pot(pot) => &pot.title,
        }
    }

    /// The id by which steps use it.
    pub(crate) fn id(&self) -> &str {
        match self {
            Self::Paint(paint) => &paint.id,
            Self::Pot(pot) => &pot.id,
        }
    }
}

/// How much of one product.
#[derive(Debug)]
pub(crate) struct MixingPart {
    pub(crate) product: Product,
    /// Its amount in the author's ratio; none where it is the only product.
    pub(crate) ratio: Option<String>,
    pub(crate) drops: Option<u32>,
    pub(crate) ml: Option<f64>,
}

/// A pass that is not through when the evening ends.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Stop<'a> {
    pub(crate) of: UnitStep<'a>,
    pub(crate) coat: u32,
    /// The last model that was done.
    pub(crate) last: u32,
}

impl<'a> Planned<'a> {
    /// The plan of an army, if it has one.
    pub(crate) fn of(worked: &'a Worked, army: &'a Army) -> Option<Self> {
        Some(Self { worked, army, plan: worked.plan(&army.slug)? })
    }

    /// How many seconds hands are busy on an evening, in whole minutes, and whether some of that is guessed because a step
    /// does not say how long it takes.
    pub(crate) fn busy(&self, evening: &Evening) -> (u64, bool) {
        let guessed = self.steps(&evening.blocks).iter().any(|of| of.step.minutes.is_none());
        (whole_minutes(u64::from(evening.busy().as_seconds())), guessed)
    }

    /// By when the army is to be ready, and how many days before that it is painted and dry, or after it.
    pub(crate) fn ready_by(&self) -> Option<(Date, i32)> {
        let by = self.army.evenings.as_ref()?.by.as_ref()?.value;
        Some((by, self.plan.days_to_spare(by)?))
    }

    /// The day on which the last coat is dry, where that is after the last evening.
    pub(crate) fn dry_on(&self) -> Option<Date> {
        let painted = self.plan.painted()?;
        self.plan.ready().filter(|ready| *ready > painted)
    }

    /// What the plan calls a step: the letter of its unit, where there are several, and its number.
    pub(crate) fn code(&self, of: &UnitStep<'_>) -> String {
        format!("{}{}", self.army.mark(of.unit), of.step.number)
    }

    /// The same for several steps: `A11, D9`.
    pub(crate) fn codes(&self, steps: &[UnitStep<'_>]) -> String {
        steps.iter().map(|of| self.code(of)).collect::<Vec<_>>().join(", ")
    }

    /// A step of a unit.
    pub(crate) fn step(&self, unit: usize, at: usize) -> Option<UnitStep<'a>> {
        step_of(self.worked, self.army.units.get(unit)?, unit, at)
    }

    /// The facts of a step of a unit.
    pub(crate) fn facts(&self, of: &UnitStep<'_>, words: &Words) -> Vec<StepFact> {
        let worked = self.worked.scheme(&of.scheme.slug);
        worked.map(|worked| facts::of_step(worked, of.at, words)).unwrap_or_default()
    }

    /// The steps of some blocks, each once, in the order in which they begin.
    pub(crate) fn steps(&self, blocks: &[Block]) -> Vec<UnitStep<'a>> {
        let mut seen: Vec<(usize, usize)> = Vec::new();
        for block in blocks {
            if let Task::Paint { unit, step, .. } = block.task
                && !seen.contains(&(unit, step))
            {
                seen.push((unit, step));
            }
        }
        seen.into_iter().filter_map(|(unit, step)| self.step(unit, step)).collect()
    }

    /// What lies on the desk on an evening beside the paints; what is the same for several steps is said once.
    pub(crate) fn on_desk(&self, evening: &Evening, words: &Words) -> Vec<OnDesk<'a>> {
        let mut found: Vec<OnDesk<'a>> = Vec::new();
        for of in self.steps(&evening.blocks) {
            let Some(says) = facts::on_desk(of.step, words).and_then(|fact| fact.listed()) else { continue };
            match found.iter_mut().find(|known| known.says == says) {
                Some(known) => known.steps.push(of),
                None => found.push(OnDesk { says, steps: vec![of] }),
            }
        }
        found
    }

    /// The steps of all evenings, each once, by unit and in the order of work.
    pub(crate) fn all_steps(&self) -> Vec<UnitStep<'a>> {
        let mut steps: Vec<UnitStep<'a>> =
            self.plan.evenings.iter().flat_map(|evening| self.steps(&evening.blocks)).collect();
        steps.sort_by_key(|of| (of.unit, of.at));
        steps.dedup_by_key(|of| (of.unit, of.at));
        steps
    }

    /// What to mix on an evening, in the order of the steps.
    pub(crate) fn mixings(&self, evening: &Evening) -> Vec<Mixing<'a>> {
        let steps = self.steps(&evening.blocks);
        steps
            .into_iter()
            .filter(|of| !of.step.mix.parts.is_empty())
            .map(|of| mixing(of, share_of(evening, &of)))
            .collect()
    }

    /// The pots to mix on an evening, before its mixes: those that are one lot on the first evening that uses them.
    pub(crate) fn pots(&self, evening: &Evening) -> Vec<PotMixing<'a>> {
        let steps = self.steps(&evening.blocks);
        let mut found: Vec<PotMixing<'a>> = Vec::new();
        for poured in steps.iter().flat_map(|of| &of.step.mix.pots) {
            let pot = &poured.pot;
            if found.iter().any(|known| known.pot == *pot) || (pot.together && !self.begins(pot, evening)) {
                continue;
            }
            let all = if pot.together { self.all_steps() } else { steps.clone() };
            let using: Vec<UnitStep<'a>> = all.into_iter().filter(|of| uses(of, pot)).collect();
            let share = |of: &UnitStep<'_>| if pot.together { 1.0 } else { share_of(evening, of) };
            found.push(pot_mixing(pot, using, share, &self.worked.conditions.bench));
        }
        found
    }

    /// Whether no earlier evening uses a pot.
    fn begins(&self, pot: &Pot, evening: &Evening) -> bool {
        let earlier = self.plan.evenings.iter().take_while(|other| other.number < evening.number);
        !earlier.flat_map(|other| self.steps(&other.blocks)).any(|of| uses(&of, pot))
    }

    /// Until when the airbrush waits with paint in it after a block, in seconds since midnight, where that is longer than
    /// paint stays wet in a nozzle; then it has to be sprayed clean in between.
    pub(crate) fn stands_until(&self, evening: &Evening, at: usize) -> Option<u32> {
        let sprays = |kit: usize| self.plan.kits.get(kit).is_some_and(|kit| kit.tool == Tool::Airbrush);
        let (block, later) = evening.blocks.get(at..)?.split_first()?;
        let Task::Paint { kit, .. } = block.task else { return None };
        let next = later.iter().find(|block| match block.task {
            Task::Paint { kit, .. } | Task::Ready { kit, .. } => sprays(kit),
            Task::Strip { .. } => true,
            Task::Wait => false,
        })?;
        let stands = f64::from(next.start.saturating_sub(block.end)) / 60.0;
        (sprays(kit) && stands > self.worked.conditions.bench.get(Figure::WetInNozzle)).then_some(next.start)
    }

    /// Where to stop: passes that go on another evening.
    pub(crate) fn stops(&self, evening: &Evening) -> Vec<Stop<'a>> {
        let mut stops: Vec<Stop<'a>> = Vec::new();
        for block in &evening.blocks {
            let Task::Paint { unit, step, coat, last, .. } = block.task else { continue };
            let Some(of) = self.step(unit, step) else { continue };
            stops.retain(|stop| (stop.of.unit, stop.of.at, stop.coat) != (unit, step, coat));
            stops.push(Stop { of, coat, last });
        }
        stops.retain(|stop| stop.last < stop.of.models);
        stops
    }
}

/// A step of the unit at a place of an army.
pub(crate) fn step_of<'a>(worked: &'a Worked, of: &Unit, unit: usize, at: usize) -> Option<UnitStep<'a>> {
    let worked: &'a WorkedScheme = worked.scheme(&of.scheme.slug)?;
    let scheme: &'a Scheme = &worked.scheme;
    Some(UnitStep {
        unit,
        models: of.models,
        scheme,
        at,
        step: scheme.steps.get(at)?,
        cautions: worked.step_cautions.get(at),
        need: worked.needs.get(at).and_then(Option::as_ref),
        rest: worked.times.get(at).and_then(|times| times.rests.first()).copied(),
    })
}

/// How many coats on single models an evening lays of a step.
fn turns(evening: &Evening, of: &UnitStep<'_>) -> u64 {
    let turns = evening.blocks.iter().map(|block| match block.task {
        Task::Paint { unit, step, first, last, .. } if (unit, step) == (of.unit, of.at) => u64::from(last - first + 1),
        _ => 0,
    });
    turns.sum()
}

/// Whether a step is poured from a pot: this very mix, for a version may fill the same pot with other paints.
pub(crate) fn uses(of: &UnitStep<'_>, pot: &Pot) -> bool {
    of.step.mix.pots.iter().any(|poured| *poured.pot == *pot)
}

/// Which share of a step's coats on all its models an evening lays.
fn share_of(evening: &Evening, of: &UnitStep<'_>) -> f64 {
    let all = f64::from(of.models) * f64::from(of.step.coats.max(1));
    let turns = f64::from(u32::try_from(turns(evening, of)).unwrap_or(u32::MAX));
    if all > 0.0 { (turns / all).min(1.0) } else { 0.0 }
}

/// A pot for some steps of which such a share is painted.
pub(crate) fn pot_mixing<'a>(
    pot: &Arc<Pot>,
    steps: Vec<UnitStep<'a>>,
    share: impl Fn(&UnitStep<'_>) -> f64,
    bench: &Bench,
) -> PotMixing<'a> {
    let pour = |of: &UnitStep<'a>| {
        Some(PotUse { unit: of.unit, models: of.models, share: share(of), mix: &of.step.mix, need: of.need? })
    };
    let uses = steps.iter().map(pour).collect::<Option<Vec<_>>>();
    let need = uses.map(|uses| PotNeed::of(pot, &uses, bench));
    let out = need.as_ref().map(|need| &need.out);
    let parts = measured(&pot.mix, out);
    let counted = out.filter(|_| pot.mix.is_ratio()).and_then(MeasuredOut::how);
    let reserve = need.as_ref().map_or(0.0, |need| need.reserve.0);
    PotMixing { pot: Arc::clone(pot), steps, ml: parts.iter().map(|part| part.ml).sum(), reserve, parts, counted }
}

/// The lines of a mix, measured out.
fn measured(mix: &Mix, out: Option<&MeasuredOut>) -> Vec<MixingPart> {
    let counts = out.filter(|out| out.by == By::Drops).map(|out| out.counts.as_slice()).unwrap_or_default();
    let volumes: Vec<f64> = out.map(|out| out.volumes.iter().map(|volume| volume.0).collect()).unwrap_or_default();
    let part = |line: MixRow<'_>| {
        let product = match line.pot {
            Some(pot) => Product::Pot(Arc::clone(pot)),
            None => Product::Paint(Arc::clone(&mix.parts.get(line.parts.start)?.paint)),
        };
        let ratio = mix.is_ratio().then(|| line.amount.to_string());
        Some(MixingPart { product, ratio, drops: line.sum(counts), ml: line.sum(&volumes) })
    };
    mix.lines().filter_map(part).collect()
}

/// The mix of a step for an evening: as much as such a share of its coats takes.
fn mixing(of: UnitStep<'_>, share: f64) -> Mixing<'_> {
    let amounts = of.need.map(|need| need.for_share(of.models, share));
    let out = amounts.as_ref().map(|amounts| &amounts.out);
    let parts = measured(&of.step.mix, out);
    let counted = out.filter(|_| of.step.mix.is_ratio()).and_then(MeasuredOut::how);
    let lot = of.need.is_some_and(|need| need.together) && share >= 1.0;
    Mixing { of, lot, ml: parts.iter().map(|part| part.ml).sum(), parts, counted }
}

/// A length of work as a plan tells it: in seconds, to the nearest minute.
pub(crate) fn whole_minutes(seconds: u64) -> u64 {
    seconds.saturating_add(30) / 60 * 60
}

/// Seconds since midnight as a time of the day, to the minute.
pub(crate) fn clock(seconds: u32) -> String {
    let minutes = (seconds / 60 + u32::from(seconds % 60 >= 30)) % (24 * 60);
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// Millilitres of a lot, as somebody measures it out: nobody measures less than a hundredth.
pub(crate) fn millilitres(ml: f64) -> String {
    exact(ml.max(0.01), if ml < 10.0 { 2 } else { usize::from(ml < 100.0) })
}

/// Models from the first to the last: `7` or `1–24`.
pub(crate) fn models(first: u32, last: u32) -> String {
    if first == last { first.to_string() } else { format!("{first}–{last}") }
}

/// Tenths of a per cent: `7.5`.
pub(crate) fn per_cent(tenths: u64) -> String {
    format!("{}.{}", tenths / 10, tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_read_as_painters_say_them() {
        assert_eq!(clock(19 * 3600 + 15 * 60 + 29), "19:15");
        assert_eq!(clock(24 * 3600 + 90), "0:02");
        assert_eq!((millilitres(0.004), millilitres(12.34)), ("0.01".to_owned(), "12.3".to_owned()));
        assert_eq!((models(7, 7), models(1, 24)), ("7".to_owned(), "1–24".to_owned()));
        assert_eq!(per_cent(75), "7.5");
    }
}
