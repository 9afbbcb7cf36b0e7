//! The facts of a step: one list, made once, in the order in which page, desk, card, recipe, mix and plan show it. A new
//! key of a step gets its fact here.

use serde::Serialize;

use crate::guide::{Scheme, Step, Tool};
use crate::measure::{Millimetres, Share, Time};
use crate::theme::Words;
use crate::trade::{Kind, Reach};
use crate::work::{Part, RestFor, WorkedScheme};

/// One fact of a step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StepFact {
    /// Which it is: `technique`, `where`, `coats`, `deep`, `between`, `dry`, `rest` (a longer one for a later step), `hands-on`,
    /// `optional` (when it may be left out), `unmixed` (products that are used one beside or after the other), `together`,
    /// `tools`, `hides` (areas that are out of reach after it) or `after`; of a step that blends `blend` and `window`.
    pub key: &'static str,
    /// What is before the words of those that are lists.
    pub label: Option<String>,
    /// What it says, in the language of the guide.
    pub words: String,
    /// The same in few words, as on a card: a time, and before what where that is not whatever comes next.
    #[serde(skip)]
    pub short: String,
    /// Where it is a wait, how long it is.
    pub seconds: Option<u32>,
}

impl StepFact {
    /// What a list says behind its label: `On the desk: Tufts (3 each)`; `None` of what is no list.
    pub(crate) fn listed(&self) -> Option<String> {
        Some(format!("{}: {}", self.label.as_ref()?, self.words))
    }
}

/// After how many days and on how many evenings the model is finished, at the earliest: `after 6 days, 4 evenings`.
pub(crate) fn ready(worked: &WorkedScheme, words: &Words) -> Option<String> {
    let sittings = &worked.sittings;
    let days = words.counted("glance.ready-after", u64::from(sittings.ready_after));
    let evenings = words.counted("glance.evenings", u64::try_from(sittings.evenings).unwrap_or(u64::MAX));
    (sittings.ready_after > 0).then(|| if sittings.evenings > 0 { format!("{days}, {evenings}") } else { days })
}

/// The facts of the step at a place of a scheme.
pub(crate) fn of_step(worked: &WorkedScheme, at: usize, words: &Words) -> Vec<StepFact> {
    let (Some(step), Some(times)) = (worked.scheme.steps.get(at), worked.times.get(at)) else { return Vec::new() };
    let fact = |key, words: String| StepFact { key, label: None, short: words.clone(), words, seconds: None };
    let time = |key: &str, time: Time| words.filled(key, &[("time", &words.duration(u64::from(time.as_seconds())))]);
    let wait = |key, words, short, time: Time| StepFact { short, seconds: Some(time.as_seconds()), ..fact(key, words) };
    let technique = words.filled(&format!("technique.{}", step.technique.name()), &[]);
    let mut facts = vec![fact("technique", technique), fact("where", whereabouts(worked, at, step, words))];
    // Nobody counts coats of glue.
    let glued = step.coats == 1 && step.mix.parts.iter().all(|part| part.paint.kind == Kind::Glue);
    if !step.mix.parts.is_empty() && !glued {
        facts.push(fact("coats", words.counted("step.coats", u64::from(step.coats))));
        facts.extend(
            times
                .between
                .map(|between| wait("between", time("step.between", between), time("card.between", between), between)),
        );
    }
    facts.extend(step.deep.map(|deep| fact("deep", depth(deep, step.coats, words))));
    if step.mix.blend.is_some() {
        facts.push(fact("blend", words.filled("mix.blend", &[])));
        facts.extend(
            times.window.map(|window| wait("window", time("step.window", window), time("step.window", window), window)),
        );
    } else if step.mix.unmixed && step.mix.parts.len() > 1 {
        facts.push(fact("unmixed", words.filled("mix.unmixed", &[])));
    }
    for (key, rest) in ["dry", "rest"].into_iter().zip(&times.rests) {
        let said = if key == "rest" {
            longer(worked, rest, &times.rests, words)
        } else {
            // Where a later step needs more, the first rest says too what it is for.
            let rested = time(&format!("rest.{}", rest.name()), rest.time);
            let is_first = rest.name() == "recoat" && times.rests.len() > 1;
            if is_first { format!("{rested} {}", words.filled("rest-for.recoat", &[])) } else { rested }
        };
        // What dries before whatever comes next needs no word more; of every other wait it must be said before what, or a
        // painter waits a day for a varnish that comes last.
        let plain = key == "dry" && matches!(rest.name(), "recoat" | "handling" | "washed");
        let short = match key {
            "dry" if plain => time("card.dry", rest.time),
            "dry" if rest.name() != "wet" => before(rest, "card.dry-before", words),
            _ => said.clone(),
        };
        facts.push(wait(key, said, short, rest.time));
    }
    facts.extend(step.optional.as_ref().map(|when| fact("optional", words.filled("step.optional", &[("when", when)]))));
    let hands_on = if times.usual { "step.usual" } else { "step.hands-on" };
    let work = words.work(u64::from(times.hands_on.as_seconds()));
    facts.push(fact("hands-on", words.filled(hands_on, &[("time", &work)])));
    facts.extend(step.together.then(|| fact("together", words.filled("step.together", &[]))));
    let earlier = step.after.iter().filter_map(|at| worked.scheme.steps.get(*at)).map(|step| step.title.as_str());
    facts.extend(on_desk(step, words));
    let hidden = step.hides.iter().filter_map(|area| worked.scheme.areas.get(*area)).map(|area| area.title.as_str());
    facts.extend(list("hides", "step.hides", &hidden.collect::<Vec<_>>(), words));
    facts.extend(list("after", "step.after", &earlier.collect::<Vec<_>>(), words));
    facts
}

/// How deep a pour, a gel or a paste is laid, each time where it is more than once.
fn depth(deep: Millimetres, coats: u32, words: &Words) -> String {
    let key = if coats == 1 { "step.deep" } else { "step.deep-each" };
    words.filled(key, &[("mm", &words.number(&deep.0.to_string()))])
}

/// The longer rest of a step. Where it is for the same as the first one, on another area, the step that it is for is named, or
/// the two would contradict each other.
fn longer(worked: &WorkedScheme, rest: &RestFor, rests: &[RestFor], words: &Words) -> String {
    let is_the_same = rests.first().is_some_and(|first| first.name() == rest.name());
    let later = rest.before.filter(|_| is_the_same).and_then(|at| worked.scheme.steps.get(at));
    let Some(later) = later else { return before(rest, "step.longer", words) };
    let time = words.duration(u64::from(rest.time.as_seconds()));
    let before = words.filled("step.before-named", &[("step", &later.title)]);
    words.filled("step.longer", &[("time", &time), ("before", &before)])
}

/// A rest with what it is for.
fn before(rest: &RestFor, key: &str, words: &Words) -> String {
    let time = words.duration(u64::from(rest.time.as_seconds()));
    let before = words.filled(&format!("rest-for.{}", rest.name()), &[]);
    words.filled(key, &[("time", &time), ("before", &before)])
}

/// The facts of a step without those that are lists, for a form that shows lists in its own place.
pub(crate) fn in_short(worked: &WorkedScheme, at: usize, words: &Words) -> impl Iterator<Item = StepFact> {
    of_step(worked, at, words).into_iter().filter(|fact| fact.label.is_none())
}

/// Facts as lines for a terminal, with plain spaces: the short ones in one, then each list with its label.
pub(crate) fn lines(facts: &[StepFact]) -> Vec<String> {
    let short = facts.iter().filter(|fact| fact.label.is_none()).map(|fact| fact.words.as_str());
    let lines = std::iter::once(short.collect::<Vec<_>>().join(" · ")).chain(facts.iter().filter_map(StepFact::listed));
    lines.map(|line| line.replace('\u{a0}', " ")).collect()
}

/// What lies on the desk for a step beside its paints.
pub(crate) fn on_desk(step: &Step, words: &Words) -> Option<StepFact> {
    let tools: Vec<String> = step.tools.iter().map(|tool| counted(tool, words)).collect();
    list("tools", "step.tools", &tools.iter().map(String::as_str).collect::<Vec<_>>(), words)
}

/// The name of a tool; of what is counted, with how many each model takes.
pub(crate) fn counted(tool: &Tool, words: &Words) -> String {
    match tool.per_model {
        Some(count) => words.filled("step.each", &[("name", &tool.name), ("count", &words.number(&count.to_string()))]),
        None => tool.name.clone(),
    }
}

/// A fact that is a list, below the words of a label.
fn list(key: &'static str, label: &str, names: &[&str], words: &Words) -> Option<StepFact> {
    let label = Some(words.filled(label, &[]));
    (!names.is_empty()).then(|| StepFact { key, label, words: names.join(", "), short: String::new(), seconds: None })
}

/// Where a step works, and whether that is beside a mask.
fn whereabouts(worked: &WorkedScheme, at: usize, step: &Step, words: &Words) -> String {
    let beside = worked.beside_masks.get(at).is_some_and(|beside| *beside);
    let beside = beside.then(|| words.filled(&format!("from.{}", Part::BesideMask.name()), &[]));
    std::iter::once(place(&worked.scheme, step, words)).chain(beside).collect::<Vec<_>>().join(", ")
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
    std::iter::once(place).chain(aimed(step, words)).collect::<Vec<_>>().join(", ")
}

/// Where on its areas a step works, and from where, as far as it is not all of them from everywhere.
pub(super) fn aimed(step: &Step, words: &Words) -> impl Iterator<Item = String> {
    let reach = Some(step.reach).filter(|reach| *reach != Reach::All);
    let reach = reach.map(|reach| words.filled(&format!("reach.{}", reach.name()), &[]));
    let percent = |share: Share| words.percent(share.as_percent(), 0);
    let covers = step.covers.map(|share| words.filled("step.covers", &[("share", &percent(share))]));
    reach.into_iter().chain(side(step, words)).chain(covers)
}

/// From where a step works, where it is not from everywhere.
pub(crate) fn side(step: &Step, words: &Words) -> Option<String> {
    step.from.map(|from| words.filled(&format!("from.{}", from.name()), &[]))
}
