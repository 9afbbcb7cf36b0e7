//! A plan for the terminal.

use std::fmt::Write as _;

use super::planned::{Mixing, MixingPart, Planned, PotMixing, clock, millilitres, models, whole_minutes};
use crate::caution::CautionTexts;
use crate::film::Reason;
use crate::guide::Army;
use crate::measure::Date;
use crate::plan::{self, Block, Evening, Task, Tool};
use crate::report::wording;
use crate::tell::{called, cautions, facts};
use crate::theme::{self, Words};
use crate::trade::Technique;
use crate::work::Worked;

/// The plan of an army as text; without one, how much work it is and what is missing.
pub(crate) fn plan_text(worked: &Worked, army: &Army, words: &Words) -> String {
    let mut text = format!("{}\n\n", army.title);
    match Planned::of(worked, army) {
        None => without(&mut text, worked, army),
        Some(planned) => {
            head(&mut text, planned);
            let english = theme::english();
            for evening in &planned.plan.evenings {
                told(&mut text, planned, evening, words);
                drying(&mut text, planned, evening, &english);
            }
        }
    }
    text
}

fn without(text: &mut String, worked: &Worked, army: &Army) {
    let effort = plan::effort(army, &worked.conditions);
    for (at, unit) in army.units.iter().enumerate() {
        let models = counted(u64::from(unit.models), "model", "models");
        let _ = writeln!(
            text,
            "{}, {models}: {} of work",
            unit.scheme.title,
            length(u64::from(effort.of_unit(at).as_seconds()))
        );
    }
    let _ = writeln!(text, "{} of work in all.", length(effort.hands_on));
    assumed(text, army, &effort);
    text.push_str(if army.evenings.is_none() {
        "No evenings are named. Write them into the army's file, such as\n\
         evenings: {days: [tue, thu], from: \"19:00\", length: 2 h, first: 2027-01-12}\n"
    } else {
        "There is no plan; 'maulstick check' says why.\n"
    });
}

fn head(text: &mut String, planned: Planned<'_>) {
    let plan = planned.plan;
    let all = planned.army.units.iter().map(|unit| u64::from(unit.models)).sum();
    let days = plan.evenings.first().zip(plan.evenings.last());
    let days = days.map_or_else(String::new, |(first, last)| format!(", {} to {}", day(first.date), day(last.date)));
    let _ = writeln!(
        text,
        "{} in {}{days}.",
        counted(all, "model", "models"),
        counted(plan.takes_evenings, "evening", "evenings")
    );
    let _ = writeln!(text, "{} of work, {} of setting up and cleaning.", length(plan.hands_on), length(plan.changing));
    for (at, unit) in planned.army.units.iter().enumerate().filter(|_| planned.army.units.len() > 1) {
        let _ = writeln!(text, "  {:<2} {:>3} × {}", planned.army.mark(at), unit.models, unit.scheme.title);
    }
    let least = counted(plan.least_evenings, "evening", "evenings");
    let _ = match plan.gap() {
        0 => writeln!(text, "With this work and these drying times no plan can end earlier."),
        _ => {
            writeln!(text, "With this work and these drying times no plan can need less than {least}; {}.", more(plan))
        }
    };
    if let Some((by, days)) = planned.ready_by() {
        let apart = counted(u64::from(days.unsigned_abs()), "day", "days");
        let _ = match days {
            0 => writeln!(text, "It is to be ready by {}, and is on that day.", day(by)),
            1.. => writeln!(text, "It is to be ready by {}: {apart} to spare.", day(by)),
            _ => writeln!(text, "It is to be ready by {}: it is {apart} late.", day(by)),
        };
    }
    if let Some(dry) = planned.dry_on() {
        let _ = writeln!(text, "The last coat is dry on {}.", day(dry));
    }
    let effort = plan::effort(planned.army, &planned.worked.conditions);
    assumed(text, planned.army, &effort);
    let texts = CautionTexts::of(&planned.worked.guide.language);
    let said = cautions::of(texts, &planned.all_steps());
    if !said.is_empty() {
        let _ = writeln!(text, "\n{}, before any of it:", texts.labels().cautions);
        for line in said.iter().map(String::as_str).chain([texts.closing()]) {
            let _ = writeln!(text, "  ! {line}");
        }
    }
}

/// How many evenings more than the shortest plan possible a plan takes at most.
fn more(plan: &plan::Plan) -> String {
    match plan.takes_evenings.saturating_sub(plan.least_evenings) {
        0 => "this one takes no more evenings than that".to_owned(),
        more => format!("this one takes at most {} more", counted(more, "evening", "evenings")),
    }
}

/// Says of which steps the minutes are the usual ones.
fn assumed(text: &mut String, army: &Army, effort: &plan::Effort) {
    let titles =
        effort.assumed.iter().filter_map(|(unit, step)| Some(&army.units.get(*unit)?.scheme.steps.get(*step)?.title));
    let titles: Vec<&String> = titles.collect();
    if !titles.is_empty() {
        let listed = wording::listed(titles);
        let _ = writeln!(text, "The minutes of {listed} are the usual ones of their stage.");
    }
}

fn told(text: &mut String, planned: Planned<'_>, evening: &Evening, words: &Words) {
    let (from, to) = (clock(evening.from), clock(evening.ends()));
    let (busy, guessed) = planned.busy(evening);
    let busy = format!("{}{}", if guessed { "about " } else { "" }, length(busy));
    let of = length(u64::from(evening.to.saturating_sub(evening.from)));
    let _ = writeln!(text, "\n{}, {from} to {to}  (evening {}, {busy} of {of})", day(evening.date), evening.number);
    let texts = CautionTexts::of(&planned.worked.guide.language);
    let steps = planned.steps(&evening.blocks);
    let first = cautions::first(texts, &steps);
    if !first.is_empty() {
        let _ = writeln!(text, "  ! {first}");
    }
    for of in &steps {
        let facts = facts::lines(&planned.facts(of, words));
        let _ = writeln!(text, "  step   {} {}: {}", planned.code(of), of.step.title, facts.join("\n         "));
    }
    for pot in planned.pots(evening) {
        let _ = writeln!(text, "  pot    {}", potted(planned, &pot));
    }
    for mixing in planned.mixings(evening) {
        let verb = if mixing.parts.len() > 1 && !mixing.of.step.mix.unmixed { "mix" } else { "use" };
        let _ = writeln!(text, "  {verb}    {} {}", planned.code(&mixing.of), mixed(&mixing));
    }
    for (at, block) in evening.blocks.iter().enumerate() {
        let _ = writeln!(text, "  {:>5}  {}", clock(block.start), done(planned, block, words));
        if let Some(until) = planned.stands_until(evening, at) {
            let _ = writeln!(text, "         rinse the airbrush; you use it again at {}", clock(until));
        }
    }
    for stop in planned.stops(evening) {
        let coat = if stop.of.step.coats > 1 { format!(", coat {}", stop.coat) } else { String::new() };
        let _ = writeln!(
            text,
            "  stop   {} {}{coat}: model {} of {} is the last",
            planned.code(&stop.of),
            stop.of.step.title,
            stop.last,
            stop.of.models
        );
    }
}

/// What still dries in the end, and for what: the sentence is English, and so are the words in it.
fn drying(text: &mut String, planned: Planned<'_>, evening: &Evening, english: &Words) {
    for rest in &evening.resting {
        let Some(of) = planned.step(rest.unit, rest.step) else { continue };
        let for_long = english.duration(u64::from(rest.rests.as_seconds())).replace('\u{a0}', " ");
        let _ = writeln!(
            text,
            "  dries  {}, {} {}: {for_long} more, {}",
            of.scheme.title,
            of.step.title,
            models(rest.first, rest.last),
            before(of.dries_for(rest.coat), english)
        );
    }
}

/// What something dries for, with plain spaces.
fn before(reason: Reason, words: &Words) -> String {
    words.filled(&format!("rest-for.{}", reason.name()), &[]).replace('\u{a0}', " ")
}

fn mixed(mixing: &Mixing<'_>) -> String {
    let lot = if mixing.lot { ", one lot for all" } else { "" };
    let sign = if mixing.of.step.mix.unmixed { ", " } else { " : " };
    format!("{}: {}{lot}{}", mixing.of.step.title, parts(&mixing.parts).join(sign), how(mixing.counted))
}

/// How a lot is counted out, where that has to be said.
fn how(counted: Option<&str>) -> &'static str {
    match counted {
        Some("poured") => ", poured and not counted in drops",
        Some("sized") => ", counted by drop size",
        Some(_) => ", counted near the ratio, and near enough",
        None => "",
    }
}

fn potted(planned: Planned<'_>, mixing: &PotMixing<'_>) -> String {
    let lot = if mixing.pot.together { ", one lot for all evenings" } else { "" };
    let steps = mixing.steps.iter().map(|of| format!("{} {}", planned.code(of), of.step.title));
    let titles = wording::listed(steps);
    let (parts, how) = (parts(&mixing.parts).join(" : "), how(mixing.counted));
    format!("{}: {parts}{lot}{how}, for {titles}", mixing.pot.title)
}

fn parts(parts: &[MixingPart]) -> Vec<String> {
    let part = |part: &MixingPart| {
        let ratio = part.ratio.as_ref().map(|ratio| format!("{ratio} ")).unwrap_or_default();
        let amount = match (part.drops, part.ml) {
            (Some(drops), Some(ml)) => {
                let drops = wording::counted(drops, "drop", "drops");
                format!(" ({drops}, {} ml)", millilitres(ml))
            }
            (None, Some(ml)) => format!(" ({} ml)", millilitres(ml)),
            _ => String::new(),
        };
        format!("{ratio}{}{amount}", part.product.name())
    };
    parts.iter().map(part).collect()
}

fn done(planned: Planned<'_>, block: &Block, words: &Words) -> String {
    match block.task {
        Task::Strip { next: None } => "strip and clean the airbrush".to_owned(),
        Task::Strip { next: Some(_) } => {
            "strip and clean the airbrush: the next product needs another cleaner".to_owned()
        }
        Task::Wait => format!("nothing to do until {}: drying", clock(block.end)),
        Task::Ready { rinse: true, kit } => {
            format!("change the colour in the airbrush: {}", names(planned, kit, words))
        }
        Task::Ready { kit, .. } => match planned.plan.kits.get(kit).map(|kit| kit.tool) {
            Some(Tool::Airbrush) => format!("set up the airbrush: {}", names(planned, kit, words)),
            Some(Tool::Can) => format!("shake the can: {}", names(planned, kit, words)),
            _ => taken_up(planned, kit, words),
        },
        Task::Paint { unit, step, coat, first, last, .. } => {
            let Some(of) = planned.step(unit, step) else { return String::new() };
            let coat = if of.step.coats > 1 { format!(", coat {coat} of {}", of.step.coats) } else { String::new() };
            let which = if first == last { "model" } else { "models" };
            format!("{} · {}{coat}, {which} {}", of.scheme.title, of.step.title, models(first, last))
        }
    }
}

/// A change to a tool with its products, or to the tool alone.
fn taken_up(planned: Planned<'_>, kit: usize, words: &Words) -> String {
    let Some(kit) = planned.plan.kits.get(kit) else { return "change the tool".to_owned() };
    let tool = match kit.technique {
        Technique::Stipple => "stippling brush".to_owned(),
        technique => technique.to_string(),
    };
    match (called::whole(&kit.mix, words), kit.technique) {
        (None, Technique::Hand) => "lay out".to_owned(),
        (Some(names), Technique::Hand) => format!("lay out: {names}"),
        (Some(names), _) => format!("change to: {names} ({tool})"),
        (None, _) => format!("change to: {tool}"),
    }
}

/// The products of a kit.
fn names(planned: Planned<'_>, kit: usize, words: &Words) -> String {
    let names = planned.plan.kits.get(kit).and_then(|kit| called::whole(&kit.mix, words));
    names.unwrap_or_else(|| "no paint".to_owned())
}

fn day(date: Date) -> String {
    date.0.strftime("%a %-d %b %Y").to_string()
}

fn counted(count: u64, one: &str, many: &str) -> String {
    wording::counted(usize::try_from(count).unwrap_or(usize::MAX), one, many)
}

/// A length of time in hours and minutes, to the nearest minute.
fn length(seconds: u64) -> String {
    let minutes = whole_minutes(seconds) / 60;
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rest_is_for_something_in_plain_english() {
        let english = theme::english();
        assert_eq!(before(Reason::OverDecal, &english), "before it is sealed");
        for reason in Reason::ALL {
            assert!(before(reason, &english).starts_with("before "), "{}", reason.name());
        }
    }
}
