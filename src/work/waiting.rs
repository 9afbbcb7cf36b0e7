//! How long every step of a scheme takes and waits, as the film's clock has it: the one answer for pages, card and data.

use crate::bench::Minutes;
use crate::film::{Coat, Film, Reason};
use crate::measure::Time;

/// How long a step takes on one model, and how long it rests.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StepTimes {
    /// Work, all coats together.
    pub hands_on: Time,
    /// Whether the work is the usual for such a step, because the author does not say.
    pub usual: bool,
    /// How long two that are blended stay wet together, where that is known.
    pub window: Option<Time>,
    /// Rest between two coats; `None` where there is one.
    pub between: Option<Time>,
    /// Rest after the last coat: for the next step on its areas, and for a later one that needs more.
    pub rests: Vec<RestFor>,
    /// How long the hands lie idle until anything else can be done: the step's share of a scheme's drying time.
    pub idle: Time,
}

/// A rest, and what it is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RestFor {
    /// How long.
    pub time: Time,
    /// Why.
    pub reason: Reason,
    /// The step that it is for, by its place in the scheme's list.
    pub before: Option<usize>,
    /// Whether the author wrote it.
    pub written: bool,
}

impl RestFor {
    /// Its name in a theme's words: an author's rest of no time at all is paint on wet paint.
    pub fn name(&self) -> &'static str {
        if self.time == Time::default() { "wet" } else { self.reason.name() }
    }
}

impl StepTimes {
    /// How long the step dries in all: between its coats and for the next step on its areas.
    pub fn drying(&self, coats: u32) -> Time {
        let between = self.between.map(|between| between.times(coats.saturating_sub(1))).unwrap_or_default();
        between + self.rests.first().map(|rest| rest.time).unwrap_or_default()
    }
}

/// The times of each step, in the order of the steps.
pub(super) fn times(film: &Film<'_>) -> Vec<StepTimes> {
    (0..film.turns().len()).map(|position| of_step(film, position)).collect()
}

fn of_step(film: &Film<'_>, position: usize) -> StepTimes {
    let wait = film.wait(position);
    let step = film.step(position);
    let several = step.is_some_and(|step| step.coats > 1);
    // What an author writes stands as it is written; what is filled in is no finer than anybody waits.
    let own = |written: Option<Time>, filled: Minutes| written.unwrap_or_else(|| filled.to_be_written().as_time());
    let is_dry = film.coat(position).is_some_and(Coat::is_dry_powder);
    // Dry powder is never wet: there is nothing to wait for, and nothing to hurry for.
    let rests = film.rests(position).into_iter().filter(|rest| rest.time.0 > 0.0 || (rest.written && !is_dry));
    let rests = rests.map(|rest| RestFor {
        time: match step.and_then(|step| step.dry) {
            Some(dry) if rest.written && rest.before.is_none() => dry,
            _ => rest.time.as_time(),
        },
        reason: rest.reason,
        before: rest.before,
        written: rest.written,
    });
    StepTimes {
        hands_on: wait.hands_on.as_time(),
        usual: wait.usual,
        window: film.coat(position).and_then(|coat| coat.open).map(|open| open.to_be_written().as_time()),
        between: several
            .then(|| own(step.and_then(|step| step.wait), wait.between))
            .filter(|time| *time > Time::default()),
        rests: rests.collect(),
        idle: film.idle(position).as_time(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::door::Memory;
    use crate::film::Conditions;

    const PAINTS: &str = r"
maker: Tarn & Daughter
range: Mere
family: water
paints:
  green: {name: Green, kind: paint}
  amber: {name: Amber, kind: clear, family: alcohol}
  shine: {name: Shine, kind: varnish, family: lacquer, sheen: gloss}
  label: {name: Label, kind: clear, family: alcohol, recoat: 5 min}
  gel: {name: Gel, kind: resin}
  quick: {name: Instant glue, kind: glue}
  white: {name: Wood glue, kind: glue}
  dust: {name: Dust, kind: pigment}
  oil: {name: Oil, kind: oil}
  matt: {name: Matt, kind: varnish}
";

    /// The wait between the coats of the first step, and the name and length of its first rest, in minutes.
    fn waits(steps: &[&str]) -> (Option<f64>, Option<(&'static str, f64)>) {
        let mut door = Memory::default()
            .with("content/guide.yaml", "title: T\nauthor: A\n")
            .with("content/paints/mere.yaml", PAINTS)
            .with("content/schemes/s/scheme.md", "---\ntitle: S\nareas: {all-of-it: 100%}\n---\n");
        for (at, step) in steps.iter().enumerate() {
            let path = format!("content/schemes/s/{}-step.md", 10 + at);
            door = door.with(&path, format!("---\n{{title: Step, areas: [all], {step}}}\n---\n"));
        }
        let (guide, findings) = crate::guide::resolve(&mut crate::source::read(&door).unwrap());
        assert!(findings.is_empty(), "{findings:?}");
        let conditions = Conditions::of(&guide);
        let order: Vec<usize> = (0..steps.len()).collect();
        let film = Film::walk(&guide.schemes[0], &order, &conditions);
        let first = times(&film).swap_remove(0);
        let rest = first.rests.first().map(|rest| (rest.name(), rest.time.as_minutes()));
        (first.between.map(Time::as_minutes), rest)
    }

    #[test]
    fn quick_clears_lie_wet_between_their_coats_and_colours_do_not() {
        let between = |paint: &str, stage: &str| {
            waits(&[&format!("stage: {stage}, with: airbrush, coats: 3, paints: [{paint}]")]).0
        };
        assert_eq!(between("amber", "glaze"), Some(12.0));
        assert_eq!(between("shine", "varnish"), Some(12.0));
        assert_eq!(between("label", "glaze"), Some(5.0));
        assert_eq!(between("green", "basecoat"), Some(3.0));
        assert_eq!(waits(&["stage: glaze, with: airbrush, coats: 3, wait: 3 min, paints: [amber]"]).0, Some(3.0));
    }

    #[test]
    fn a_poured_gel_clears_in_a_day_and_instant_glue_sets_in_minutes() {
        let poured = waits(&["stage: basing, with: hand, deep: 2 mm, coats: 2, paints: [gel]"]);
        assert_eq!(poured, (Some(1440.0), Some(("handling", 1440.0))));
        assert_eq!(waits(&["stage: basing, with: brush, coats: 2, paints: [gel]"]).0, Some(480.0));
        let glued = |glue: &str| {
            waits(&[&format!("stage: basing, with: hand, paints: [{glue}]"), "stage: varnish, paints: [matt]"]).1
        };
        assert_eq!(glued("quick"), Some(("varnish", 60.0)));
        assert_eq!(glued("white"), Some(("varnish", 720.0)));
    }

    #[test]
    fn oil_is_wiped_while_it_is_open_and_glue_sets_before_paint() {
        let oil = "stage: weather, with: brush, paints: [oil]";
        assert_eq!(waits(&[oil, "stage: weather, with: cloth"]).1, Some(("recoat", 15.0)));
        let glued = |glue: &str| {
            let glue = format!("stage: assemble, with: hand, paints: [{glue}]");
            waits(&[&glue, "stage: undercoat, with: brush, paints: [green]"]).1.map(|(_, minutes)| minutes)
        };
        assert_eq!((glued("white"), glued("quick")), (Some(480.0), Some(10.0)));
    }

    #[test]
    fn loose_powder_is_not_wet_and_does_not_dry() {
        assert_eq!(waits(&["stage: pigment, with: brush, paints: [dust]"]).1, None);
        assert_eq!(waits(&["stage: pigment, with: brush, dry: 0 min, paints: [dust]"]).1, None);
        let wet = waits(&["stage: basecoat, dry: 0 min, paints: [green]", "stage: layer, paints: [green]"]);
        assert_eq!(wet.1, Some(("wet", 0.0)));
    }

    #[test]
    fn what_is_filled_in_is_whole_days_above_two_and_what_is_written_stays() {
        let over = |dry: &str| {
            let oil = format!("stage: weather, with: brush, {dry}paints: [oil]");
            waits(&[&oil, "stage: varnish, paints: [matt]"]).1.map(|(_, minutes)| minutes / 1440.0)
        };
        assert_eq!(over(""), Some(4.0));
        assert_eq!(over("dry: 84 h, "), Some(3.5));
        let last = waits(&["stage: weather, with: brush, dry: 84 h, paints: [oil]"]).1;
        assert_eq!(last.map(|(_, minutes)| minutes / 1440.0), Some(3.5));
    }
}
