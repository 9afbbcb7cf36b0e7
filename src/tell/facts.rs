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
    /// Which it is: `technique`, `where`, `coats`, `dry`, `hands-on` or `together`.
    pub key: &'static str,
    /// What it says, in the language of the guide.
    pub words: String,
    /// The wait in it that a reader can time.
    pub timer: Option<Timer>,
}

/// A wait that can be timed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Timer {
    /// How long it is.
    pub seconds: u32,
    /// What it is for: `coat`, the next one, or `dry`.
    pub of: &'static str,
}

impl StepFact {
    fn new(key: &'static str, words: String) -> Self {
        Self { key, words, timer: None }
    }

    fn timed(self, time: Option<Time>, of: &'static str) -> Self {
        Self { timer: time.map(|time| Timer { seconds: time.as_seconds(), of }), ..self }
    }
}

/// The facts of a step of a scheme.
pub fn of_step(scheme: &Scheme, step: &Step, words: &Words) -> Vec<StepFact> {
    let time = |key: &str, time: Time| words.filled(key, &[("time", &words.duration(u64::from(time.as_seconds())))]);
    let technique = words.filled(&format!("technique.{}", step.technique.name()), &[]);
    let mut facts = vec![StepFact::new("technique", technique), StepFact::new("where", place(scheme, step, words))];
    if !step.mix.parts.is_empty() {
        let between = step.wait.filter(|_| step.coats > 1);
        let coats = words.counted("step.coats", u64::from(step.coats));
        let said = [Some(coats), between.map(|wait| time("step.between", wait))];
        let said = said.into_iter().flatten().collect::<Vec<_>>().join(", ");
        facts.push(StepFact::new("coats", said).timed(between, "coat"));
    }
    facts.extend(step.dry.map(|dry| StepFact::new("dry", time("step.dry", dry)).timed(Some(dry), "dry")));
    facts.extend(step.hands_on().map(|hands_on| StepFact::new("hands-on", time("step.hands-on", hands_on))));
    facts.extend(step.together.then(|| StepFact::new("together", words.filled("step.together", &[]))));
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
