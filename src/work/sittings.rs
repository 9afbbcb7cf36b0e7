//! On which evening each step of a scheme is painted, where one model is painted alone and nothing but drying holds it up.

use crate::bench::{Figure, Minutes};
use crate::film::{Conditions, Film};

/// From one evening to the next, in minutes.
const DAY: f64 = 1440.0;

/// The evenings that a scheme asks for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sittings {
    /// The day of each step, from 0, in the order of the steps; steps of one day are one evening's.
    pub days: Vec<u32>,
    /// On how many evenings something is painted.
    pub evenings: usize,
    /// After how many days the last coat is dry, at the earliest.
    pub ready_after: u32,
}

impl Sittings {
    /// The evenings of a walked scheme: every evening begins at the same hour and lasts as the figures say. A step begins
    /// when the hands are free and its areas are dry; one that does not go into an evening waits for the next.
    pub(super) fn of(film: &Film<'_>, conditions: &Conditions) -> Self {
        let evening = conditions.bench.get(Figure::Evening).clamp(1.0, DAY);
        let mut ready = vec![0.0_f64; film.scheme().areas.len()];
        let (mut free, mut days, mut last) = (0.0_f64, Vec::new(), 0.0_f64);
        for (position, turn) in film.turns().iter().enumerate() {
            let areas = film.areas(position);
            let dry = areas.iter().filter_map(|area| ready.get(*area)).copied().fold(free, f64::max);
            let Minutes(busy) = hands_on(film, position, turn.ends.0 - turn.begins.0);
            let begins = begins(dry, busy, evening);
            free = begins + busy;
            let ends = begins + (turn.ends.0 - turn.begins.0) + rest(film, position);
            for area in areas {
                if let Some(ready) = ready.get_mut(*area) {
                    *ready = ready.max(ends);
                }
            }
            last = last.max(ends);
            days.push(whole(begins / DAY));
        }
        let evenings = days.chunk_by(|a, b| a == b).count();
        Self { days, evenings, ready_after: whole((last / DAY).ceil()) }
    }

    /// The place of each step's evening among the evenings, from 0.
    pub fn places(&self) -> Vec<usize> {
        let evenings = self.days.chunk_by(|a, b| a == b).enumerate();
        evenings.flat_map(|(at, steps)| std::iter::repeat_n(at, steps.len())).collect()
    }
}

/// When something that may begin at a moment begins: at once if the evening is long enough, otherwise on the next.
fn begins(earliest: f64, busy: f64, evening: f64) -> f64 {
    let gone = earliest.rem_euclid(DAY);
    let fits = gone <= 0.0 || gone + busy <= evening;
    if fits { earliest } else { (earliest / DAY).ceil() * DAY }
}

/// How long the hands are busy: what the step says, otherwise all of its time that is no waiting.
fn hands_on(film: &Film<'_>, position: usize, whole: f64) -> Minutes {
    let said = film.step(position).and_then(crate::guide::Step::hands_on);
    said.map_or(Minutes(whole.min(DAY / 24.0)), Minutes::from)
}

/// How long the areas of a step rest after it.
fn rest(film: &Film<'_>, position: usize) -> f64 {
    let said = film.step(position).and_then(|step| step.dry).map(Minutes::from);
    said.or_else(|| film.coat(position).map(|coat| coat.drying.recoat)).unwrap_or_default().0
}

fn whole(days: f64) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 0 ..= 100000")]
    let whole = days.clamp(0.0, 100_000.0) as u32;
    whole
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_go_into_an_evening_waits_for_the_next() {
        for (earliest, busy, wanted) in [
            (0.0, 200.0, 0.0),
            (100.0, 20.0, 100.0),
            (140.0, 20.0, 1440.0),
            (1440.0, 5.0, 1440.0),
            (1700.0, 5.0, 2880.0),
        ] {
            assert!((begins(earliest, busy, 150.0) - wanted).abs() < 1e-9, "{earliest} {busy}");
        }
    }

    #[test]
    fn steps_of_one_day_share_an_evening() {
        let sittings = Sittings { days: vec![0, 0, 1, 4], evenings: 3, ready_after: 5 };
        assert_eq!(sittings.places(), [0, 0, 1, 2]);
    }
}
