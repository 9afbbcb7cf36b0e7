//! The facts of a step: one list, made once, in the order in which page, desk, card and recipe show it. A new key of a step
//! gets its fact here.

use serde::Serialize;

use crate::guide::{Scheme, Step};
use crate::measure::Time;
use crate::theme::Words;
use crate::trade::Reach;

/// One fact of a step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StepFact {
    /// Which it is: `technique`, `where`, `coats`, `between`, `dry`, `hands-on` or `together`.
    pub key: &'static str,
    /// What it says, in the language of the guide.
    pub words: String,
    /// Where it is a wait, how long it is.
    pub seconds: Option<u32>,
}

/// The facts of a step of a scheme.
pub fn of_step(scheme: &Scheme, step: &Step, words: &Words) -> Vec<StepFact> {
    let fact = |key, words| StepFact { key, words, seconds: None };
    let time = |key: &str, time: Time| words.filled(key, &[("time", &words.duration(u64::from(time.as_seconds())))]);
    let wait = |key, words, time: Time| StepFact { key, words, seconds: Some(time.as_seconds()) };
    let technique = words.filled(&format!("technique.{}", step.technique.name()), &[]);
    let mut facts = vec![fact("technique", technique), fact("where", place(scheme, step, words))];
    if !step.mix.parts.is_empty() {
        facts.push(fact("coats", words.counted("step.coats", u64::from(step.coats))));
        let between = step.wait.filter(|_| step.coats > 1);
        facts.extend(between.map(|between| wait("between", time("step.between", between), between)));
    }
    facts.extend(step.dry.map(|dry| wait("dry", time("step.dry", dry), dry)));
    facts.extend(step.hands_on().map(|hands_on| fact("hands-on", time("step.hands-on", hands_on))));
    facts.extend(step.together.then(|| fact("together", words.filled("step.together", &[]))));
    facts
}

/// The areas, or the whole model, and where on them the paint goes.
fn place(scheme: &Scheme, step: &Step, words: &Words) -> String {
    let areas = step.areas.iter().filter_map(|area| scheme.areas.get(*area));
    let titles: Vec<&str> = areas.map(|area| area.title.as_str()).collect();
    let place = match titles.as_slice() {
        [_, ..] if !step.all_over => titles.join(", "),
        _ => words.filled("step.everywhere", &[]),
    };
    match step.reach {
        Reach::All => place,
        reach => format!("{place}, {}", words.filled(&format!("reach.{}", reach.name()), &[])),
    }
}
