//! Says what a plan breaks. Written from the guide's files alone: it shares no code with the program's own scheduling,
//! and follows every model through every coat.

use std::collections::BTreeMap;

use maulstick::bench::{Figure, Minutes};
use maulstick::film::{Conditions, Film};
use maulstick::guide::{Army, Scheme, Step};
use maulstick::plan::{Kit, Plan, Task, Tool};
use maulstick::trade::{Family, Technique};

/// A `together` step of which a finding says that it can't be done in one go.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Split {
    pub(crate) unit: usize,
    pub(crate) step: usize,
    /// Whether an evening holds it for some of the models.
    pub(crate) lots: bool,
}

/// When one model's coat began and ended, in seconds since the first evening's midnight.
#[derive(Debug, Clone, Copy)]
struct Turn {
    start: i64,
    end: i64,
}

/// Turns by unit, step, coat and model.
type Turns = BTreeMap<(usize, usize, u32, u32), Turn>;

/// Everything that a plan breaks; a finding says of the `split` steps, by unit and place, that they can't be done together.
pub(crate) fn faults(plan: &Plan, army: &Army, conditions: &Conditions, split: &[Split]) -> Vec<String> {
    let mut faults = Vec::new();
    evenings(plan, army, &mut faults);
    let turns = turns(plan, army, conditions, &mut faults);
    for (at, unit) in army.units.iter().enumerate() {
        everything_once(&turns, at, &unit.scheme, unit.models, &mut faults);
        coats(&turns, at, &unit.scheme, unit.models, conditions, &mut faults);
        orders(&turns, at, &unit.scheme, unit.models, conditions, &mut faults);
        together(plan, at, &unit.scheme, split, &mut faults);
        sittings(plan, army, at, conditions, &mut faults);
    }
    runs(plan, army, conditions, &mut faults);
    tools(plan, &mut faults);
    faults
}

/// Evenings stand on their days and never on a day off, blocks inside their evenings, and never two at once.
fn evenings(plan: &Plan, army: &Army, faults: &mut Vec<String>) {
    let asked = army.evenings.as_ref().unwrap();
    let mut last = None;
    for evening in &plan.evenings {
        let weekday = usize::try_from(evening.date.0.weekday().to_monday_zero_offset()).unwrap();
        let off = asked.not.iter().any(|day| day.value == evening.date);
        let hours = asked.days.iter().find(|hours| hours.day.0 == weekday);
        let Some(hours) = hours.filter(|_| !off && evening.date >= asked.first && Some(evening.date) > last) else {
            faults.push(format!("there is no evening on {}", evening.date));
            continue;
        };
        last = Some(evening.date);
        let from = u32::from(hours.from.0) * 60;
        let mut free = from;
        for block in &evening.blocks {
            if block.start < free || block.end < block.start || block.end > from + hours.length.as_seconds() {
                faults.push(format!("{}: {block:?} is outside its evening or under another", evening.date));
            }
            free = block.end;
        }
    }
}

fn turns(plan: &Plan, army: &Army, conditions: &Conditions, faults: &mut Vec<String>) -> Turns {
    let mut turns = Turns::new();
    let Some(first) = plan.evenings.first().map(|evening| evening.date.0) else { return turns };
    for evening in &plan.evenings {
        let days = i64::from((evening.date.0 - first).get_days());
        for block in &evening.blocks {
            let Task::Paint { unit, step, coat, first, last, .. } = block.task else { continue };
            let scheme = &army.units[unit].scheme;
            let each = each(&scheme.steps[step], scheme, conditions);
            let start = days * 86_400 + i64::from(block.start);
            if i64::from(block.end - block.start) != each * i64::from(last - first + 1) {
                faults.push(format!("{block:?} does not take as long as its models need"));
            }
            for model in first..=last {
                let start = start + each * i64::from(model - first);
                if turns.insert((unit, step, coat, model), Turn { start, end: start + each }).is_some() {
                    faults.push(format!("{block:?} does a coat twice"));
                }
            }
        }
    }
    turns
}

/// Hands-on seconds: the minutes of the step, rounded up, or the usual ones.
fn each(step: &Step, scheme: &Scheme, conditions: &Conditions) -> i64 {
    let minutes = step.minutes.map_or_else(
        || maulstick::bench::usual_minutes(scheme, step, &conditions.bench),
        maulstick::measure::Fraction::as_f64,
    );
    #[expect(clippy::cast_possible_truncation, reason = "some minutes")]
    let seconds = (minutes * 60.0).ceil() as i64;
    seconds
}

fn everything_once(turns: &Turns, unit: usize, scheme: &Scheme, models: u32, faults: &mut Vec<String>) {
    let wanted = scheme.steps.iter().map(|step| u64::from(step.coats) * u64::from(models)).sum::<u64>();
    let found = turns.keys().filter(|key| key.0 == unit).count() as u64;
    if wanted != found {
        faults.push(format!("unit {unit} has {found} turns and needs {wanted}"));
    }
}

fn coats(turns: &Turns, unit: usize, scheme: &Scheme, models: u32, conditions: &Conditions, faults: &mut Vec<String>) {
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let film = Film::walk(scheme, &order, conditions);
    for (at, step) in scheme.steps.iter().enumerate() {
        let wait = i64::from(film.wait(at).between.as_time().as_seconds());
        for coat in 1..step.coats {
            for model in 1..=models {
                let (a, b) = (turns.get(&(unit, at, coat, model)), turns.get(&(unit, at, coat + 1, model)));
                if let (Some(a), Some(b)) = (a, b)
                    && a.end + wait > b.start
                {
                    faults.push(format!(
                        "unit {unit}, '{}', model {model}: coat {} is too early",
                        step.title,
                        coat + 1
                    ));
                }
            }
        }
    }
}

/// Every pair of steps that meet: on an area, by spray, or by `after`.
fn orders(turns: &Turns, unit: usize, scheme: &Scheme, models: u32, conditions: &Conditions, faults: &mut Vec<String>) {
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let film = Film::walk(scheme, &order, conditions);
    for (b, later) in scheme.steps.iter().enumerate() {
        for (a, earlier) in scheme.steps.iter().enumerate().take(b) {
            let shares = film.areas(a).iter().any(|area| film.areas(b).contains(area));
            let sprays = earlier.technique.sprays() || later.technique.sprays();
            let after = later.after.contains(&a);
            let both_base = film.areas(a).is_empty() && film.areas(b).is_empty();
            if !shares && !sprays && !after && !both_base {
                continue;
            }
            let recoat = film.coat(a).map(|coat| coat.drying.recoat.as_time()).unwrap_or_default();
            let dry = if shares || after { i64::from(earlier.dry.unwrap_or(recoat).as_seconds()) } else { 0 };
            // A rest of days is kept by evenings, as no check minds: an eighth less, and four hours at most.
            let dry = if dry < 20 * 3600 { dry } else { dry - (dry / 8).min(4 * 3600) };
            for model in 1..=models {
                let end = turns.get(&(unit, a, earlier.coats, model));
                let start = turns.get(&(unit, b, 1, model));
                if let (Some(end), Some(start)) = (end, start)
                    && end.end + dry > start.start
                {
                    faults.push(format!(
                        "unit {unit}, model {model}: '{}' is too early after '{}'",
                        later.title, earlier.title
                    ));
                }
            }
        }
    }
}

/// All coats of a `together` step stand on one evening: for all models, or where they do not go into one, in lots. Nothing
/// else is done between them.
fn together(plan: &Plan, unit: usize, scheme: &Scheme, split: &[Split], faults: &mut Vec<String>) {
    for (at, step) in scheme.steps.iter().enumerate().filter(|(_, step)| step.together) {
        let split = split.iter().find(|split| (split.unit, split.step) == (unit, at));
        let of_step = |task: &Task| matches!(task, Task::Paint { unit: u, step: s, .. } if (*u, *s) == (unit, at));
        let evenings = plan.evenings.iter().filter(|one| one.blocks.iter().any(|block| of_step(&block.task))).count();
        if evenings > 1 && split.is_none() {
            faults.push(format!("unit {unit}: '{}' is not done together", step.title));
        }
        if split.is_some_and(|split| !split.lots) {
            continue;
        }
        for evening in &plan.evenings {
            let mut before = None;
            for task in evening.blocks.iter().map(|block| block.task).filter(|task| *task != Task::Wait) {
                if let Task::Paint { coat, first, last, .. } = task
                    && of_step(&task)
                {
                    if coat > 1 && before != Some((coat - 1, first, last)) {
                        faults.push(format!("{}: something lies between coats of '{}'", evening.date, step.title));
                    }
                    before = Some((coat, first, last));
                } else {
                    before = None;
                }
            }
        }
    }
}

/// A model gets all brushed coats of a step on one evening where they are at most a quarter of an hour apart and an evening
/// holds them.
fn sittings(plan: &Plan, army: &Army, unit: usize, conditions: &Conditions, faults: &mut Vec<String>) {
    let scheme = &army.units[unit].scheme;
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let film = Film::walk(scheme, &order, conditions);
    let longest = army.evenings.as_ref().unwrap().days.iter().map(|hours| i64::from(hours.length.as_seconds())).max();
    let taking_up = i64::from(Minutes(conditions.bench.get(Figure::BrushChange)).as_time().as_seconds());
    for (at, step) in scheme.steps.iter().enumerate().filter(|(_, step)| !step.together && !step.technique.sprays()) {
        let between = i64::from(film.wait(at).between.as_time().as_seconds());
        let coats = i64::from(step.coats);
        let takes = taking_up + coats * each(step, scheme, conditions) + (coats - 1) * between;
        if between > 900 || Some(takes) > longest {
            continue;
        }
        let mut evenings: BTreeMap<u32, usize> = BTreeMap::new();
        for evening in &plan.evenings {
            for block in &evening.blocks {
                let Task::Paint { unit: u, step: s, first, last, .. } = block.task else { continue };
                let torn = (first..=last)
                    .filter(|_| (u, s) == (unit, at))
                    .filter(|model| *evenings.entry(*model).or_insert(evening.number) != evening.number);
                faults.extend(
                    torn.map(|model| format!("'{}' of unit {unit}, model {model}: coats are torn apart", step.title)),
                );
            }
        }
    }
}

/// A sprayed coat is laid in as few runs as the longest evening allows; no coat is cut into crumbs on one evening.
fn runs(plan: &Plan, army: &Army, conditions: &Conditions, faults: &mut Vec<String>) {
    let seconds = |figure| i64::from(Minutes(conditions.bench.get(figure)).as_time().as_seconds());
    let longest = army.evenings.as_ref().unwrap().days.iter().map(|hours| i64::from(hours.length.as_seconds())).max();
    let mut runs: BTreeMap<(usize, usize, u32), i64> = BTreeMap::new();
    for evening in &plan.evenings {
        let mut crumbs: BTreeMap<(usize, usize, u32), usize> = BTreeMap::new();
        for block in &evening.blocks {
            if let Task::Paint { unit, step, coat, first, last, .. } = block.task {
                *runs.entry((unit, step, coat)).or_default() += 1;
                *crumbs.entry((unit, step, coat)).or_default() += usize::from(first == last);
            }
        }
        let crumbs = crumbs.into_iter().filter(|(_, crumbs)| *crumbs > 3);
        faults.extend(crumbs.map(|(key, crumbs)| format!("{}: {crumbs} single models of {key:?}", evening.date)));
    }
    for ((unit, at, coat), runs) in runs {
        let of = &army.units[unit];
        let step = &of.scheme.steps[at];
        let beside = match step.technique {
            Technique::Airbrush => seconds(Figure::AirbrushSetUp) + seconds(Figure::AirbrushStrip),
            Technique::SprayCan => seconds(Figure::CanSetUp),
            _ => continue,
        };
        let fits = (longest.unwrap() - beside) / each(step, &of.scheme, conditions).max(1);
        let least = (i64::from(of.models) + fits.max(1) - 1) / fits.max(1);
        if !step.together && runs > least {
            faults.push(format!("'{}' coat {coat} of unit {unit} takes {runs} runs, and {least} would do", step.title));
        }
    }
}

/// An airbrush is set up before it sprays, stripped before another carrier follows, and before the evening ends.
fn tools(plan: &Plan, faults: &mut Vec<String>) {
    for evening in &plan.evenings {
        let (mut loaded, mut before) = (None, None);
        for block in &evening.blocks {
            match block.task {
                Task::Ready { kit, .. } if plan.kits[kit].tool == Tool::Airbrush => {
                    let needs = cleaner(&plan.kits[kit]);
                    if before.is_some_and(|before| before != needs) {
                        faults.push(format!("{}: {block:?} brings another carrier", evening.date));
                    }
                    (loaded, before) = (Some(kit), Some(needs));
                }
                Task::Paint { kit, .. } if plan.kits[kit].tool == Tool::Airbrush && loaded != Some(kit) => {
                    faults.push(format!("{}: {block:?} sprays with another colour", evening.date));
                }
                Task::Strip { .. } => (loaded, before) = (None, None),
                _ => {}
            }
        }
        if loaded.is_some() {
            faults.push(format!("{}: the airbrush is not cleaned", evening.date));
        }
    }
}

/// What cleans a mix out of an airbrush, by the first paint in it; the armies here mix no families.
fn cleaner(kit: &Kit) -> &'static str {
    match kit.mix.parts[0].paint.family {
        Family::Oil | Family::Enamel => "white spirit",
        Family::Lacquer => "lacquer thinner",
        Family::Alcohol => "alcohol",
        _ => "water",
    }
}
