//! An army's evenings as a calendar file: one event an evening, with what is done and every caution in full.

use super::ics::{Calendar, Event};
use crate::caution::CautionTexts;
use crate::guide::Army;
use crate::plan::{Block, Evening, Resting, Task};
use crate::tell::plan::planned::{MixingPart, OnDesk, Planned, clock, millilitres, models};
use crate::theme::Words;
use crate::work::Worked;

/// The calendar file of an army in the words of its language, with the path of its page in the published folder; without a plan it has no events.
pub(crate) fn army_calendar(worked: &Worked, army: &Army, words: &Words, page: &str) -> String {
    let mut calendar = Calendar::new(&army.title);
    let Some(planned) = Planned::of(worked, army) else { return calendar.finish() };
    let address = worked.guide.address.as_ref().map(crate::source::WebAddress::as_folder);
    let page = address.map(|folder| folder + page);
    let first = planned.plan.evenings.first().map(|evening| evening.date);
    for (at, evening) in planned.plan.evenings.iter().enumerate() {
        calendar.add(&Event {
            uid: uid(planned, evening),
            stamp: first.unwrap_or(evening.date),
            date: evening.date,
            from: evening.from,
            length: evening.ends().saturating_sub(evening.from).max(60),
            summary: &format!("{} {}/{}", army.title, at + 1, planned.plan.evenings.len()),
            description: &description(planned, evening, words),
            address: page.as_deref(),
        });
    }
    calendar.finish()
}

/// Told by the guide, the army and the day, so that the same evening stays the same event.
fn uid(planned: Planned<'_>, evening: &Evening) -> String {
    let guide = &planned.worked.guide;
    let place = guide.address.as_ref().map_or_else(|| plain(&guide.title), |address| plain(address.0.as_str()));
    format!("{}-{}@{place}", planned.army.slug, evening.date)
}

/// Letters, digits and hyphens of a text.
fn plain(text: &str) -> String {
    let words = text.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join("-").to_lowercase()
}

/// The cautions before all else, then what to mix, what lies on the desk, what to do, and what dries afterwards.
fn description(planned: Planned<'_>, evening: &Evening, words: &Words) -> String {
    let pots = planned.pots(evening);
    let counted = |word: Option<&str>| {
        word.map(|word| format!(", {}", words.filled(&format!("mix.{word}"), &[]))).unwrap_or_default()
    };
    let pots =
        pots.iter().map(|pot| format!("{}: {}{}", pot.pot.title, parts(&pot.parts, words), counted(pot.counted)));
    let mixings = planned.mixings(evening);
    let mixings = mixings
        .iter()
        .map(|mixing| format!("{}: {}{}", mixing.of.step.title, parts(&mixing.parts, words), counted(mixing.counted)));
    let mixes: Vec<String> = pots.chain(mixings).collect();
    let tasks: Vec<String> = evening.blocks.iter().filter_map(|block| done(planned, words, block)).collect();
    let dries: Vec<String> = evening.resting.iter().filter_map(|rest| dries(planned, words, rest)).collect();
    let on_desk: Vec<String> = planned.on_desk(evening, words).iter().map(lies).collect();
    let parts =
        [cautions(planned, evening), mixes, on_desk, tasks, dries].into_iter().filter(|lines| !lines.is_empty());
    parts.map(|lines| lines.join("\n")).collect::<Vec<_>>().join("\n\n")
}

/// What lies on the desk, behind the titles of its steps.
fn lies(on_desk: &OnDesk<'_>) -> String {
    let mut titles: Vec<&str> = Vec::new();
    for of in &on_desk.steps {
        if !titles.contains(&of.step.title.as_str()) {
            titles.push(&of.step.title);
        }
    }
    format!("{} · {}", titles.join(", "), on_desk.says)
}

fn parts(parts: &[MixingPart], words: &Words) -> String {
    let parts = parts.iter().map(|part| {
        let ratio = part.ratio.as_ref().map(|ratio| format!("{} ", words.number(ratio))).unwrap_or_default();
        let drops = part.drops.map(|drops| words.counted("card.drops", u64::from(drops)));
        let ml = part.ml.map(|ml| format!("{} ml", words.number(&millilitres(ml))));
        let amounts: Vec<String> = drops.into_iter().chain(ml).collect();
        let amounts = if amounts.is_empty() { String::new() } else { format!(" ({})", amounts.join(", ")) };
        format!("{ratio}{}{amounts}", part.product.name())
    });
    parts.collect::<Vec<_>>().join(" + ")
}

/// One line of what to do; tools that are only taken up or rinsed have none.
fn done(planned: Planned<'_>, words: &Words, block: &Block) -> Option<String> {
    let (from, to) = (clock(block.start), clock(block.end));
    let what = match block.task {
        Task::Ready { .. } => return None,
        Task::Strip { next: None } => words.filled("plan.task.clean", &[]),
        Task::Strip { next: Some(_) } => words.filled("plan.task.strip", &[]),
        Task::Wait => words.filled("plan.task.wait", &[("until", &to)]),
        Task::Paint { unit, step, coat, first, last, .. } => {
            let of = planned.step(unit, step)?;
            let coat = if of.step.coats > 1 { format!(" {coat}/{}", of.step.coats) } else { String::new() };
            format!("{} · {}{coat} · {}", of.scheme.title, of.step.title, models(first, last))
        }
    };
    Some(format!("{from}–{to} {what}"))
}

/// What dries when the evening is over, for how long, and before what.
fn dries(planned: Planned<'_>, words: &Words, rest: &Resting) -> Option<String> {
    let of = planned.step(rest.unit, rest.step)?;
    let time = words.duration(u64::from(rest.rests.as_seconds()));
    let dries = words.filled("plan.rests", &[("time", &time)]);
    let reason = words.filled(&format!("rest-for.{}", of.dries_for(rest.coat).name()), &[]);
    Some(format!("{} · {} · {} {dries}, {reason}", of.scheme.title, of.step.title, models(rest.first, rest.last)))
}

/// Every caution of the evening's steps, in full and once.
fn cautions(planned: Planned<'_>, evening: &Evening) -> Vec<String> {
    let texts = CautionTexts::of(&planned.worked.guide.language);
    let steps = planned.steps(&evening.blocks);
    let said = crate::tell::cautions::of(texts, &steps);
    if said.is_empty() {
        return said;
    }
    let head = format!("{}:", texts.labels().cautions);
    [crate::tell::cautions::first(texts, &steps), head]
        .into_iter()
        .chain(said)
        .chain([texts.closing().to_owned()])
        .collect()
}
