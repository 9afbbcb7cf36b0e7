//! The facts of a step: one list, made once, in the order in which page, desk, card and recipe show it. A new key of a step
//! gets its fact here.

use serde::Serialize;

use crate::guide::{Scheme, Step};
use crate::measure::Time;
use crate::theme::Words;
use crate::trade::Reach;
use crate::work::WorkedScheme;

/// One fact of a step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StepFact {
    /// Which it is: `technique`, `where`, `coats`, `between`, `dry`, `rest` (a longer one for a later step), `hands-on`,
    /// `optional` (when it may be left out), `unmixed` (products that are used one beside or after the other) or `together`.
    pub key: &'static str,
    /// What it says, in the language of the guide.
    pub words: String,
    /// Where it is a wait, how long it is.
    pub seconds: Option<u32>,
}

/// The facts of the step at a place of a scheme.
pub fn of_step(worked: &WorkedScheme, at: usize, words: &Words) -> Vec<StepFact> {
    let (Some(step), Some(times)) = (worked.scheme.steps.get(at), worked.times.get(at)) else { return Vec::new() };
    let fact = |key, words| StepFact { key, words, seconds: None };
    let time = |key: &str, time: Time| words.filled(key, &[("time", &words.duration(u64::from(time.as_seconds())))]);
    let wait = |key, words, time: Time| StepFact { key, words, seconds: Some(time.as_seconds()) };
    let technique = words.filled(&format!("technique.{}", step.technique.name()), &[]);
    let mut facts = vec![fact("technique", technique), fact("where", place(&worked.scheme, step, words))];
    if !step.mix.parts.is_empty() {
        facts.push(fact("coats", words.counted("step.coats", u64::from(step.coats))));
        facts.extend(times.between.map(|between| wait("between", time("step.between", between), between)));
    }
    if step.mix.unmixed && step.mix.parts.len() > 1 {
        facts.push(fact("unmixed", words.filled("mix.unmixed", &[])));
    }
    for (key, rest) in ["dry", "rest"].into_iter().zip(&times.rests) {
        facts.push(wait(key, time(&format!("rest.{}", rest.name()), rest.time), rest.time));
    }
    facts.extend(step.optional.as_ref().map(|when| fact("optional", words.filled("step.optional", &[("when", when)]))));
    let hands_on = if times.usual { "step.usual" } else { "step.hands-on" };
    facts.push(fact("hands-on", time(hands_on, times.hands_on)));
    facts.extend(step.together.then(|| fact("together", words.filled("step.together", &[]))));
    facts
}

/// The areas, or the whole model, and where on them the paint goes.
fn place(scheme: &Scheme, step: &Step, words: &Words) -> String {
    let areas = step.areas.iter().filter_map(|area| scheme.areas.get(*area));
    let titles: Vec<&str> = areas.map(|area| area.title.as_str()).collect();
    let place = match titles.as_slice() {
        _ if step.is_about_base() => words.filled("step.base", &[]),
        [_, ..] if !step.all_over => titles.join(", "),
        _ => words.filled("step.everywhere", &[]),
    };
    match step.reach {
        Reach::All => place,
        reach => format!("{place}, {}", words.filled(&format!("reach.{}", reach.name()), &[])),
    }
}
