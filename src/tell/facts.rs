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
    /// Which it is: `technique`, `where`, `coats`, `between`, `dry`, `rest` (a longer one for a later step), `hands-on` or
    /// `together`.
    pub key: &'static str,
    /// What it says, in the language of the guide.
    pub words: String,
    /// The same for what has room for no more than a time.
    pub short: String,
    /// Where it is a wait, how long it is.
    pub seconds: Option<u32>,
}

/// The facts of the step at a place of a scheme.
pub fn of_step(worked: &WorkedScheme, at: usize, words: &Words) -> Vec<StepFact> {
    let (Some(step), Some(times)) = (worked.scheme.steps.get(at), worked.times.get(at)) else { return Vec::new() };
    let fact = |key, words: String| StepFact { key, short: words.clone(), words, seconds: None };
    let time = |key: &str, time: Time| words.filled(key, &[("time", &words.duration(u64::from(time.as_seconds())))]);
    let wait = |key, words, short, time: Time| StepFact { key, words, short, seconds: Some(time.as_seconds()) };
    let technique = words.filled(&format!("technique.{}", step.technique.name()), &[]);
    let mut facts = vec![fact("technique", technique), fact("where", place(&worked.scheme, step, words))];
    if !step.mix.parts.is_empty() {
        facts.push(fact("coats", words.counted("step.coats", u64::from(step.coats))));
        facts.extend(
            times
                .between
                .map(|between| wait("between", time("step.between", between), time("card.between", between), between)),
        );
    }
    for (key, rest) in ["dry", "rest"].into_iter().zip(&times.rests) {
        let words = time(&format!("rest.{}", rest.name()), rest.time);
        // The first is before whatever comes next; of a longer one it must be said before what.
        let short =
            if key == "dry" && rest.time.as_seconds() > 0 { time("card.dry", rest.time) } else { words.clone() };
        facts.push(wait(key, words, short, rest.time));
    }
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
