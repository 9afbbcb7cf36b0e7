//! A plan for the terminal, in the words of the guide.

use std::fmt::Write as _;

use super::planned::{Mixing, MixingPart, Planned, PotMixing, clock, millilitres, models, whole_minutes};
use crate::caution::CautionTexts;
use crate::film::Reason;
use crate::guide::Army;
use crate::plan::{self, Block, Evening, Task, Tool};
use crate::tell::{called, cautions, facts, spoken};
use crate::theme::Words;
use crate::trade::Technique;
use crate::work::Worked;

/// What a line of an evening may begin with, by the keys of its words.
const STEP: &str = "uses.step";
const POT: &str = "planned.label.pot";
const MIX: &str = "planned.label.mix";
const USE: &str = "planned.label.use";
const STOP: &str = "planned.label.stop";
const DRIES: &str = "planned.label.dries";

/// A time of the day takes so many letters.
const CLOCK: usize = 5;

/// The plan of an army as text, with what schemes were left out of it; without one, how much work it is and what is missing.
pub(crate) fn plan_text(worked: &Worked, army: &Army, left_out: &[String], words: &Words) -> String {
    let words = &words.with_plain_spaces();
    let mut text = String::new();
    if !left_out.is_empty() {
        let left_out = spoken::listed(left_out, words);
        let _ = writeln!(text, "{}", words.filled("planned.left-out", &[("schemes", &left_out)]));
    }
    let _ = writeln!(text, "{}\n", army.title);
    match Planned::of(worked, army) {
        None => without(&mut text, worked, army, words),
        Some(planned) => {
            head(&mut text, planned, words);
            let margin = Margin::of(words);
            for evening in &planned.plan.evenings {
                told(&mut text, planned, evening, (words, margin));
                drying(&mut text, planned, evening, (words, margin));
            }
        }
    }
    text
}

/// How wide the words and times are that lines of an evening begin with.
#[derive(Debug, Clone, Copy)]
struct Margin(usize);

impl Margin {
    fn of(words: &Words) -> Self {
        let labels = [STEP, POT, MIX, USE, STOP, DRIES].map(|key| words.filled(key, &[]).chars().count());
        Self(labels.into_iter().fold(CLOCK, usize::max))
    }

    /// A line that begins with a word.
    fn line(self, text: &mut String, key: &str, line: &str, words: &Words) {
        let _ = writeln!(text, "  {:<wide$}  {line}", words.filled(key, &[]), wide = self.0);
    }

    /// A line that begins with a time, or with nothing.
    fn at(self, text: &mut String, time: &str, line: &str) {
        let _ = writeln!(text, "  {time:>wide$}  {line}", wide = self.0);
    }
}

fn without(text: &mut String, worked: &Worked, army: &Army, words: &Words) {
    let effort = plan::effort(army, &worked.conditions);
    for (at, unit) in army.units.iter().enumerate() {
        let models = words.counted("tick-grid.models", u64::from(unit.models));
        let time = length(u64::from(effort.of_unit(at).as_seconds()), words);
        let values = [("scheme", unit.scheme.title.as_str()), ("models", &models), ("time", &time)];
        let _ = writeln!(text, "{}", words.filled("planned.unit", &values));
    }
    let _ = writeln!(text, "{}", words.filled("planned.in-all", &[("time", &length(effort.hands_on, words))]));
    assumed(text, army, &effort, words);
    if army.evenings.is_none() {
        // What an author writes is the same in every language.
        let such_as = "evenings: {days: [tue, thu], from: \"19:00\", length: 2 h, first: 2027-01-12}";
        let _ = writeln!(text, "{}\n{such_as}", words.filled("planned.no-evenings", &[]));
    } else {
        let _ = writeln!(text, "{}", words.filled("planned.none", &[]));
    }
}

fn head(text: &mut String, planned: Planned<'_>, words: &Words) {
    let plan = planned.plan;
    let all = planned.army.units.iter().map(|unit| u64::from(unit.models)).sum();
    let days = plan.evenings.first().zip(plan.evenings.last()).map_or_else(String::new, |(first, last)| {
        let [first, last] = [first, last].map(|evening| spoken::day(evening.date, words));
        words.filled("planned.days", &[("first", &first), ("last", &last)])
    });
    let [models, evenings] =
        [("tick-grid.models", all), ("glance.evenings", plan.takes_evenings)].map(|(key, n)| words.counted(key, n));
    let takes = [("models", models.as_str()), ("evenings", &evenings), ("days", &days)];
    let [work, changing] = [plan.hands_on, plan.changing].map(|seconds| length(seconds, words));
    let work = [("work", work.as_str()), ("changing", &changing)];
    let _ = writeln!(text, "{}", words.filled("planned.takes", &takes));
    let _ = writeln!(text, "{}", words.filled("planned.work", &work));
    for (at, unit) in planned.army.units.iter().enumerate().filter(|_| planned.army.units.len() > 1) {
        let _ = writeln!(text, "  {:<2} {:>3} × {}", planned.army.mark(at), unit.models, unit.scheme.title);
    }
    let _ = match plan.gap() {
        0 => writeln!(text, "{}", words.filled("plan.best", &[])),
        _ => writeln!(
            text,
            "{}",
            words.counted_with("planned.least", plan.least_evenings, &[("more", &more(plan, words))])
        ),
    };
    if let Some(ready) = ready_by(planned, words) {
        let _ = writeln!(text, "{ready}");
    }
    if let Some(dry) = planned.dry_on() {
        let _ = writeln!(text, "{}", words.filled("plan.dry-on", &[("date", &spoken::day(dry, words))]));
    }
    let effort = plan::effort(planned.army, &planned.worked.conditions);
    assumed(text, planned.army, &effort, words);
    let texts = CautionTexts::of(&planned.worked.guide.language);
    let said = cautions::of(texts, &planned.all_steps());
    if !said.is_empty() {
        let title = words.filled("planned.cautions", &[("title", &texts.labels().cautions)]);
        let _ = writeln!(text, "\n{title}");
        for line in said.iter().map(String::as_str).chain([texts.closing()]) {
            let _ = writeln!(text, "  ! {line}");
        }
    }
}

/// How the plan stands to the day by which it is to be ready.
fn ready_by(planned: Planned<'_>, words: &Words) -> Option<String> {
    let (by, days) = planned.ready_by()?;
    let (date, apart) = (spoken::day(by, words), u64::from(days.unsigned_abs()));
    let date = [("date", date.as_str())];
    Some(match days {
        0 => words.filled("planned.on-the-day", &date),
        1.. => words.counted_with("planned.in-time", apart, &date),
        _ => words.counted_with("planned.too-late", apart, &date),
    })
}

/// How many evenings more than the shortest plan possible a plan takes at most.
fn more(plan: &plan::Plan, words: &Words) -> String {
    match plan.takes_evenings.saturating_sub(plan.least_evenings) {
        0 => words.filled("planned.fewest", &[]),
        more => words.counted("planned.more", more),
    }
}

/// Says of which steps the minutes are the usual ones.
fn assumed(text: &mut String, army: &Army, effort: &plan::Effort, words: &Words) {
    let titles =
        effort.assumed.iter().filter_map(|(unit, step)| Some(&army.units.get(*unit)?.scheme.steps.get(*step)?.title));
    let titles: Vec<&String> = titles.collect();
    if !titles.is_empty() {
        let listed = spoken::listed(titles, words);
        let _ = writeln!(text, "{}", words.filled("planned.assumed", &[("steps", &listed)]));
    }
}

fn told(text: &mut String, planned: Planned<'_>, evening: &Evening, (words, margin): (&Words, Margin)) {
    let _ = writeln!(text, "\n{}", title(planned, evening, words));
    let texts = CautionTexts::of(&planned.worked.guide.language);
    let steps = planned.steps(&evening.blocks);
    let first = cautions::first(texts, &steps);
    if !first.is_empty() {
        let _ = writeln!(text, "  ! {first}");
    }
    let below = format!("\n  {:wide$}  ", "", wide = margin.0);
    for of in &steps {
        let facts = facts::lines(&planned.facts(of, words)).join(&below);
        margin.line(text, STEP, &format!("{} {}: {facts}", planned.code(of), of.step.title), words);
    }
    for pot in planned.pots(evening) {
        margin.line(text, POT, &potted(planned, &pot, words), words);
    }
    for mixing in planned.mixings(evening) {
        let label = if mixing.parts.len() > 1 && !mixing.of.step.mix.unmixed { MIX } else { USE };
        margin.line(text, label, &format!("{} {}", planned.code(&mixing.of), mixed(&mixing, words)), words);
    }
    for (at, block) in evening.blocks.iter().enumerate() {
        margin.at(text, &clock(block.start), &done(planned, block, words));
        if let Some(until) = planned.stands_until(evening, at) {
            margin.at(text, "", &words.filled("planned.stands", &[("until", &clock(until))]));
        }
    }
    for stop in planned.stops(evening) {
        let coat = words.filled("plan.coat-only", &[("coat", &stop.coat.to_string())]);
        let coat = if stop.of.step.coats > 1 { format!(", {coat}") } else { String::new() };
        let last = [("last", &*stop.last.to_string()), ("models", &*stop.of.models.to_string())];
        let last = words.filled("planned.last", &last);
        margin.line(text, STOP, &format!("{} {}{coat}: {last}", planned.code(&stop.of), stop.of.step.title), words);
    }
}

/// The line above an evening: its day, its hours, which it is, and how much of it is work.
fn title(planned: Planned<'_>, evening: &Evening, words: &Words) -> String {
    let (from, to) = (clock(evening.from), clock(evening.ends()));
    let hours = words.filled("plan.from-to", &[("from", &from), ("to", &to)]);
    let (busy, guessed) = planned.busy(evening);
    let busy = length(busy, words);
    let busy = if guessed { words.filled("glance.about", &[("time", &busy)]) } else { busy };
    let of = length(u64::from(evening.to.saturating_sub(evening.from)), words);
    let busy = words.filled("plan.busy", &[("busy", &busy), ("length", &of)]);
    let (day, number) = (spoken::day(evening.date, words), evening.number.to_string());
    words.filled("planned.evening", &[("day", &day), ("hours", &hours), ("number", &number), ("busy", &busy)])
}

/// What still dries in the end, and for what.
fn drying(text: &mut String, planned: Planned<'_>, evening: &Evening, (words, margin): (&Words, Margin)) {
    for rest in &evening.resting {
        let Some(of) = planned.step(rest.unit, rest.step) else { continue };
        let time = words.duration(u64::from(rest.rests.as_seconds())).replace('\u{a0}', " ");
        let before = before(of.dries_for(rest.coat), words);
        let rests = words.filled("planned.rests", &[("time", &time), ("before", &before)]);
        let models = models(rest.first, rest.last);
        margin.line(text, DRIES, &format!("{}, {} {models}: {rests}", of.scheme.title, of.step.title), words);
    }
}

/// What something dries for.
fn before(reason: Reason, words: &Words) -> String {
    words.filled(&format!("rest-for.{}", reason.name()), &[])
}

fn mixed(mixing: &Mixing<'_>, words: &Words) -> String {
    let sign = if mixing.of.step.mix.unmixed { ", " } else { " : " };
    let parts = parts(&mixing.parts, words).join(sign);
    let lot = said("planned.lot", mixing.lot, words);
    format!("{}: {parts}{lot}{}", mixing.of.step.title, how(mixing.counted, words))
}

/// Words behind a comma, where they are to be said.
fn said(key: &str, is_so: bool, words: &Words) -> String {
    if is_so { format!(", {}", words.filled(key, &[])) } else { String::new() }
}

/// How a lot is counted out, where that has to be said.
fn how(counted: Option<&str>, words: &Words) -> String {
    counted.map(|how| said(&format!("mix.{how}"), true, words)).unwrap_or_default()
}

fn potted(planned: Planned<'_>, mixing: &PotMixing<'_>, words: &Words) -> String {
    let lot = said("planned.pot-lot", mixing.pot.together, words);
    let steps = mixing.steps.iter().map(|of| format!("{} {}", planned.code(of), of.step.title));
    let titles = words.filled("planned.for", &[("steps", &spoken::listed(steps, words))]);
    let (parts, how) = (parts(&mixing.parts, words).join(" : "), how(mixing.counted, words));
    format!("{}: {parts}{lot}{how}, {titles}", mixing.pot.title)
}

fn parts(parts: &[MixingPart], words: &Words) -> Vec<String> {
    let part = |part: &MixingPart| {
        let ratio = part.ratio.as_ref().map(|ratio| format!("{} ", words.number(ratio))).unwrap_or_default();
        let amount = match (part.drops, part.ml) {
            (Some(drops), Some(ml)) => {
                let drops = words.counted("plan.drops", u64::from(drops));
                format!(" ({drops}, {} ml)", words.number(&millilitres(ml)))
            }
            (None, Some(ml)) => format!(" ({} ml)", words.number(&millilitres(ml))),
            _ => String::new(),
        };
        format!("{ratio}{}{amount}", part.product.name())
    };
    parts.iter().map(part).collect()
}

fn done(planned: Planned<'_>, block: &Block, words: &Words) -> String {
    let with = |key: &str, kit: usize| words.filled(key, &[("names", &names(planned, kit, words))]);
    match block.task {
        Task::Strip { next: None } => words.filled("planned.clean", &[]),
        Task::Strip { next: Some(_) } => words.filled("planned.strip", &[]),
        Task::Wait => words.filled("planned.wait", &[("until", &clock(block.end))]),
        Task::Ready { rinse: true, kit } => with("planned.rinse", kit),
        Task::Ready { kit, .. } => match planned.plan.kits.get(kit).map(|kit| kit.tool) {
            Some(Tool::Airbrush) => with("planned.set-up", kit),
            Some(Tool::Can) => with("planned.shake", kit),
            _ => taken_up(planned, kit, words),
        },
        Task::Paint { unit, step, coat, first, last, .. } => {
            let Some(of) = planned.step(unit, step) else { return String::new() };
            let coat = [("coat", &*coat.to_string()), ("coats", &*of.step.coats.to_string())];
            let coat = words.filled("plan.coat", &coat);
            let coat = if of.step.coats > 1 { format!(", {coat}") } else { String::new() };
            let which = if first == last { "plan.model" } else { "plan.models" };
            let which = words.filled(which, &[("models", &models(first, last))]);
            format!("{} · {}{coat}, {which}", of.scheme.title, of.step.title)
        }
    }
}

/// A change to a tool with its products, or to the tool alone.
fn taken_up(planned: Planned<'_>, kit: usize, words: &Words) -> String {
    let Some(kit) = planned.plan.kits.get(kit) else { return String::new() };
    let tool = words.filled(&format!("tool.{}", kit.technique.name()), &[]);
    let (key, names) = match (called::whole(&kit.mix, words), kit.technique) {
        (None, Technique::Hand) => ("planned.lay-out", String::new()),
        (Some(names), Technique::Hand) => ("planned.lay-out-named", names),
        (Some(names), _) => ("planned.take-up", format!("{names} ({tool})")),
        (None, _) => ("planned.take-up", tool),
    };
    words.filled(key, &[("names", &names)])
}

/// The products of a kit.
fn names(planned: Planned<'_>, kit: usize, words: &Words) -> String {
    let names = planned.plan.kits.get(kit).and_then(|kit| called::whole(&kit.mix, words));
    names.unwrap_or_else(|| words.filled("planned.no-paint", &[]))
}

/// A length of time in hours and minutes, to the nearest minute.
fn length(seconds: u64, words: &Words) -> String {
    spoken::length(whole_minutes(seconds) / 60, words)
}
