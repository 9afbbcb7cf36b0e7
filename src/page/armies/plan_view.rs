//! A plan on an army's page: rows with bars, and every evening with what to mix, to do and to leave.

use serde::Serialize;

use crate::caution::StepCautions;
use crate::draw::{Bar, EveningRow, evening_hours, evening_row};
use crate::guide::{Measured, Thing};
use crate::measure::{Colour, Weekday};
use crate::page::Desk;
use crate::page::parts::address::{Address, relative};
use crate::page::parts::caution_box;
use crate::page::parts::line::{LinkView, ProductView};
use crate::plan::{Evening, Task, Tool};
use crate::tell::called;
use crate::tell::plan::planned::{
    Mixing, MixingPart, Planned, PotMixing, Product, UnitStep, clock, millilitres, models, whole_minutes,
};
use crate::trade::Technique;

/// A plan.
#[derive(Debug, Serialize)]
pub struct PlanView {
    /// From the first evening to the last.
    pub takes: u64,
    /// How many no plan can do without.
    pub least: u64,
    /// Whether a plan could end earlier, as far as anybody knows.
    pub gap: bool,
    /// How many evenings more than the shortest plan possible it takes at most.
    pub more: u64,
    /// By when it is to be ready, and how many days the plan ends before or behind that.
    pub ready_by: Option<ReadyByView>,
    /// The day on which its last coat is dry, where that is after the last evening.
    pub dry_on: Option<String>,
    /// Hands-on seconds.
    pub hands_on: u64,
    /// Seconds of making tools ready and cleaning them.
    pub changing: u64,
    /// The first day.
    pub first: String,
    /// The last day.
    pub last: String,
    /// The evenings.
    pub evenings: Vec<EveningView>,
    /// Its calendar file.
    pub calendar: String,
    /// The cautions of all evenings in full, finished.
    pub cautions: String,
}

/// A date to be ready by.
#[derive(Debug, Serialize)]
pub struct ReadyByView {
    /// The date.
    pub date: String,
    /// How the plan stands to it; words below `plan`.
    pub says: &'static str,
    /// How many days lie between.
    pub days: u32,
}

/// One evening.
#[derive(Debug, Serialize)]
pub struct EveningView {
    /// Its anchor.
    pub anchor: String,
    /// The day of the week; words below `day`.
    pub weekday: &'static str,
    /// The day.
    pub date: String,
    /// When it begins.
    pub from: String,
    /// When the last work ends.
    pub to: String,
    /// Busy seconds.
    pub busy: u64,
    /// Whether some of that is guessed.
    pub guessed: bool,
    /// How long an evening is, in seconds.
    pub length: u32,
    /// The hours above its row, where they differ from those of the evening before, as SVG.
    pub hours: Option<String>,
    /// Its row, as SVG.
    pub row: String,
    /// The steps that are worked on, each once.
    pub work: Vec<WorkView>,
    /// The pots to mix first.
    pub pots: Vec<EveningPot>,
    /// What to mix.
    pub mixes: Vec<EveningMix>,
    /// What lies on the desk beside the paints.
    pub on_desk: Vec<OnDeskView>,
    /// What to do.
    pub tasks: Vec<TaskView>,
    /// Where to stop.
    pub stops: Vec<StopView>,
    /// What dries until another day.
    pub resting: Vec<RestingView>,
    /// What to do first, as one line, finished.
    pub to_do: String,
}

/// A step of an evening.
#[derive(Debug, Serialize)]
pub struct WorkView {
    /// What the plan calls it.
    pub code: String,
    /// Its title.
    pub title: String,
}

/// What lies on the desk for some steps.
#[derive(Debug, Serialize)]
pub struct OnDeskView {
    /// What the plan calls these steps.
    pub codes: String,
    /// What it is, with its label.
    pub says: String,
}

/// A step for several units.
#[derive(Debug, Serialize)]
pub struct CodedStep {
    /// What the plan calls it, for each of them.
    pub codes: String,
    /// The step.
    pub step: LinkView,
}

/// What to mix for one step.
#[derive(Debug, Serialize)]
pub struct EveningMix {
    /// What the plan calls the step.
    pub code: String,
    /// The step.
    pub step: LinkView,
    /// Whether the author's amounts are drops; otherwise they are parts.
    pub in_drops: bool,
    /// What is to be said of how it is counted out; a word below `mix`.
    pub counted: Option<&'static str>,
    /// How much in all, in ml.
    pub ml: Option<String>,
    /// The models of the unit, where it is one lot for all of them.
    pub lot: Option<u32>,
    /// The products.
    pub parts: Vec<EveningPart>,
}

/// A pot that is mixed.
#[derive(Debug, Serialize)]
pub struct EveningPot {
    /// The pot.
    pub product: ProductView,
    /// Whether the author's amounts are drops; otherwise they are parts.
    pub in_drops: bool,
    /// How much in all, in ml.
    pub ml: Option<String>,
    /// Whether it is one lot for all evenings.
    pub lot: bool,
    /// What is to be said of how it is counted out; a word below `mix`.
    pub counted: Option<&'static str>,
    /// The products.
    pub parts: Vec<EveningPart>,
    /// The steps that it is for.
    pub steps: Vec<CodedStep>,
}

/// One product of a mix.
#[derive(Debug, Serialize)]
pub struct EveningPart {
    /// The product.
    pub product: ProductView,
    /// Its part of the ratio.
    pub ratio: Option<String>,
    /// Drops.
    pub drops: Option<u32>,
    /// Millilitres.
    pub ml: Option<String>,
}

/// One line of what to do.
#[derive(Debug, Serialize)]
pub struct TaskView {
    /// When it begins.
    pub from: String,
    /// When it ends.
    pub to: String,
    /// What it is; words below `plan.task`.
    pub task: &'static str,
    /// What the plan calls the step, where something is painted.
    pub code: Option<String>,
    /// The step.
    pub step: Option<LinkView>,
    /// The scheme of the step.
    pub scheme: Option<String>,
    /// Which coat, where there are several.
    pub coat: Option<u32>,
    /// Of how many.
    pub coats: u32,
    /// Which models.
    pub models: Option<String>,
    /// How many they are.
    pub count: u32,
    /// The products of a tool that is made ready.
    pub products: String,
    /// The tool; words below `technique`.
    pub technique: Option<&'static str>,
    /// Until when the airbrush stands with paint in it behind this, where that is too long.
    pub stands_until: Option<String>,
}

/// A step that goes on another evening.
#[derive(Debug, Serialize)]
pub struct StopView {
    /// What the plan calls it.
    pub code: String,
    /// The step.
    pub step: LinkView,
    /// Which coat, where there are several.
    pub coat: Option<u32>,
    /// The last model of the evening.
    pub last: u32,
    /// The models of the unit.
    pub models: u32,
}

/// What dries.
#[derive(Debug, Serialize)]
pub struct RestingView {
    /// What the plan calls it.
    pub code: String,
    /// The step.
    pub step: LinkView,
    /// The scheme.
    pub scheme: String,
    /// Which models.
    pub models: String,
    /// How many they are.
    pub count: u32,
    /// For how many seconds more.
    pub rests: u32,
    /// Why, by its name in a theme's words.
    pub reason: &'static str,
}

/// The plan on the page at `path`.
pub(in crate::page) fn view(desk: Desk<'_>, planned: Planned<'_>, path: &str) -> PlanView {
    let plan = planned.plan;
    let day = |evening: Option<&Evening>| evening.map(|evening| evening.date.to_string()).unwrap_or_default();
    let each = plan.evenings.iter().map(|one| cautions(planned, one));
    let lines = caution_box::lines_of_page(&planned.worked.guide, each);
    PlanView {
        takes: plan.takes_evenings,
        least: plan.least_evenings,
        gap: plan.gap() > 0,
        more: plan.takes_evenings.saturating_sub(plan.least_evenings),
        ready_by: planned.ready_by().map(|(date, days)| ReadyByView {
            date: date.to_string(),
            says: if days < 0 { "too-late" } else { "in-time" },
            days: days.unsigned_abs(),
        }),
        dry_on: planned.dry_on().map(|date| date.to_string()),
        hands_on: whole_minutes(plan.hands_on),
        changing: whole_minutes(plan.changing),
        first: day(plan.evenings.first()),
        last: day(plan.evenings.last()),
        evenings: evenings(desk, planned, path, lines),
        calendar: relative(path, &Address::calendar(&planned.army.slug)),
        cautions: caution_box::of_some(&planned.worked.guide, path, &planned.all_steps(), |of| planned.code(of)),
    }
}

/// So often the hours stand over the bars where evenings are alike, or the lower bars could not be read.
const HOURS_EVERY: usize = 5;

/// All evenings, each with its line of what to do.
fn evenings(desk: Desk<'_>, planned: Planned<'_>, path: &str, lines: Vec<String>) -> Vec<EveningView> {
    let mut before = None;
    let with_line = planned.plan.evenings.iter().zip(lines).enumerate();
    let all = with_line.map(|(at, (one, line))| {
        let differs = before != Some((one.from, one.to)) || at % HOURS_EVERY == 0;
        let hours = differs.then(|| evening_hours(one.from, one.to));
        before = Some((one.from, one.to));
        EveningView { hours, ..evening(desk, planned, path, one, line) }
    });
    all.collect()
}

/// The cautions of the steps of an evening.
fn cautions<'a>(planned: Planned<'a>, evening: &Evening) -> Vec<&'a StepCautions> {
    planned.steps(&evening.blocks).iter().filter_map(|of| of.cautions).collect()
}

fn evening(desk: Desk<'_>, planned: Planned<'_>, path: &str, evening: &Evening, to_do: String) -> EveningView {
    let (busy, guessed) = planned.busy(evening);
    let weekday = usize::try_from(evening.date.0.weekday().to_monday_zero_offset()).unwrap_or_default();
    EveningView {
        anchor: format!("evening-{}", evening.number),
        weekday: Weekday(weekday).name(),
        date: evening.date.to_string(),
        from: clock(evening.from),
        to: clock(evening.ends()),
        busy,
        guessed,
        length: evening.to.saturating_sub(evening.from),
        hours: None,
        row: evening_row(&row(planned, evening)),
        work: planned
            .steps(&evening.blocks)
            .iter()
            .map(|of| WorkView { code: planned.code(of), title: of.step.title.clone() })
            .collect(),
        pots: planned.pots(evening).iter().map(|mixing| pot(desk, planned, path, mixing)).collect(),
        mixes: planned.mixings(evening).iter().map(|mixing| mix(desk, planned, path, mixing)).collect(),
        on_desk: planned
            .on_desk(evening, desk.words)
            .into_iter()
            .map(|lies| OnDeskView { codes: planned.codes(&lies.steps), says: lies.says })
            .collect(),
        tasks: (0..evening.blocks.len()).filter_map(|at| task(desk, planned, path, evening, at)).collect(),
        stops: planned
            .stops(evening)
            .iter()
            .map(|stop| StopView {
                code: planned.code(&stop.of),
                step: link(path, &stop.of),
                coat: Some(stop.coat).filter(|_| stop.of.step.coats > 1),
                last: stop.last,
                models: stop.of.models,
            })
            .collect(),
        resting: resting(planned, path, evening),
        to_do,
    }
}

fn link(path: &str, of: &UnitStep<'_>) -> LinkView {
    LinkView::to(path, &Thing::Step(of.scheme.slug.clone(), of.step.stem.clone()), &of.step.title)
}

fn mix(desk: Desk<'_>, planned: Planned<'_>, path: &str, mixing: &Mixing<'_>) -> EveningMix {
    EveningMix {
        code: planned.code(&mixing.of),
        step: link(path, &mixing.of),
        in_drops: mixing.of.step.mix.measured == Measured::Drops,
        counted: mixing.counted,
        ml: mixing.ml.map(millilitres),
        lot: mixing.lot.then_some(mixing.of.models),
        parts: parts(desk, path, &mixing.of.scheme.slug, &mixing.parts),
    }
}

fn pot(desk: Desk<'_>, planned: Planned<'_>, path: &str, mixing: &PotMixing<'_>) -> EveningPot {
    let scheme = mixing.steps.first().map_or("", |of| of.scheme.slug.as_str());
    let coded =
        |steps: Vec<UnitStep<'_>>| Some(CodedStep { codes: planned.codes(&steps), step: link(path, steps.first()?) });
    EveningPot {
        product: ProductView::of_pot(desk, path, scheme, &mixing.pot),
        in_drops: mixing.pot.mix.measured == Measured::Drops,
        ml: mixing.ml.map(millilitres),
        lot: mixing.pot.together,
        counted: mixing.counted,
        parts: parts(desk, path, scheme, &mixing.parts),
        steps: mixing.uses().into_iter().filter_map(coded).collect(),
    }
}

fn parts(desk: Desk<'_>, path: &str, scheme: &str, parts: &[MixingPart]) -> Vec<EveningPart> {
    let product = |part: &MixingPart| match &part.product {
        Product::Paint(paint) => ProductView::of(desk, path, paint),
        Product::Pot(pot) => ProductView::of_pot(desk, path, scheme, pot),
    };
    let part = |part: &MixingPart| EveningPart {
        product: product(part),
        ratio: part.ratio.clone(),
        drops: part.drops,
        ml: part.ml.map(millilitres),
    };
    parts.iter().map(part).collect()
}

fn task(desk: Desk<'_>, planned: Planned<'_>, path: &str, evening: &Evening, at: usize) -> Option<TaskView> {
    let block = evening.blocks.get(at)?;
    let mut view = TaskView {
        from: clock(block.start),
        to: clock(block.end),
        task: "clean",
        code: None,
        step: None,
        scheme: None,
        coat: None,
        coats: 1,
        models: None,
        count: 0,
        products: String::new(),
        technique: None,
        stands_until: planned.stands_until(evening, at).map(clock),
    };
    match block.task {
        Task::Strip { next: None } => {}
        Task::Strip { next: Some(_) } => view.task = "strip",
        Task::Wait => view.task = "wait",
        Task::Ready { kit, rinse } => {
            let kit = planned.plan.kits.get(kit)?;
            view.task = match kit.tool {
                _ if rinse => "rinse",
                Tool::Airbrush => "set-up",
                Tool::Can => "shake",
                _ if kit.technique == Technique::Hand => "lay-out",
                _ => "take-up",
            };
            view.products = called::whole(&kit.mix, desk.words).unwrap_or_default();
            view.technique = Some(kit.technique.name());
        }
        Task::Paint { unit, step, coat, first, last, .. } => {
            view.task = "paint";
            let of = planned.step(unit, step)?;
            view.code = Some(planned.code(&of));
            view.step = Some(link(path, &of));
            view.scheme = Some(of.scheme.title.clone());
            view.coat = Some(coat).filter(|_| of.step.coats > 1);
            view.coats = of.step.coats;
            view.models = Some(models(first, last));
            view.count = last - first + 1;
        }
    }
    Some(view)
}

fn resting(planned: Planned<'_>, path: &str, evening: &Evening) -> Vec<RestingView> {
    let resting = evening.resting.iter().filter_map(|rest| {
        let of = planned.step(rest.unit, rest.step)?;
        Some(RestingView {
            code: planned.code(&of),
            step: link(path, &of),
            scheme: of.scheme.title.clone(),
            models: models(rest.first, rest.last),
            count: rest.last - rest.first + 1,
            rests: rest.rests.as_seconds().div_ceil(60).saturating_mul(60),
            reason: of.dries_for(rest.coat).name(),
        })
    });
    resting.collect()
}

/// The picture of an evening: its label says in words what the bars say.
fn row(planned: Planned<'_>, evening: &Evening) -> EveningRow {
    let since = |seconds: u32| seconds.saturating_sub(evening.from);
    let mut label: Vec<String> = Vec::new();
    let length = evening.to.saturating_sub(evening.from);
    let mut row = EveningRow { from: evening.from, length, ..EveningRow::default() };
    for block in evening.blocks.iter().filter(|block| block.task != Task::Wait) {
        let mut bar = Bar { start: since(block.start), end: since(block.end), ..Bar::default() };
        if let Task::Paint { unit, step, coat, dry, .. } = block.task
            && let Some(of) = planned.step(unit, step)
        {
            let (title, scheme) = (&of.step.title, &of.scheme.title);
            let code = planned.code(&of) + &if coat > 1 { format!("·{coat}") } else { String::new() };
            let name = format!("{}–{} {code} {title}, {scheme}", clock(block.start), clock(block.end));
            label.push(name.clone());
            row.drying.push((since(block.end), since(dry)));
            let more = vec![format!("{title} – {scheme}"), title.clone()];
            bar = Bar { code, more, title: name, colour: colour(&of), ..bar };
        }
        row.bars.push(bar);
    }
    row.label = label.join("; ");
    row
}

/// The colour of the first product of a step that has one.
fn colour(of: &UnitStep<'_>) -> Option<Colour> {
    let mut coloured = of.step.mix.parts.iter().filter(|part| part.paint.kind.has_colour());
    coloured.find_map(|part| part.paint.colour)
}
