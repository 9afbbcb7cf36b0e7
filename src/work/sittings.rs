//! On which evening each step of a scheme is painted, where one model is painted alone and nothing but drying holds it up.

use crate::bench::Figure;
use crate::film::{Conditions, Film, Link};

/// From one evening to the next, in minutes.
const DAY: f64 = 1440.0;

/// Coats beyond this are not laid out evening by evening, but counted on as the last went: nobody lays so many.
const MOST_APART: u32 = 100;

/// The evenings that a scheme asks for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sittings {
    /// The day of each step's first coat, from 0, in the order of the steps; steps of one day are one evening's.
    pub days: Vec<u32>,
    /// All days on which something is painted, later coats too, rising.
    pub painted: Vec<u32>,
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
        let (mut free, mut days, mut ends) = (0.0_f64, Vec::new(), Vec::<f64>::new());
        let mut painted: Vec<u32> = Vec::new();
        for (position, turn) in film.turns().iter().enumerate() {
            let wait = film.wait(position);
            let rested = |link: &Link| ends.get(link.from).map(|end| end + link.rest.0);
            let ready = film.links(position).iter().filter_map(rested).fold(free, f64::max);
            let coats = film.step(position).map_or(1, |step| step.coats.max(1));
            let each = wait.hands_on.0 / f64::from(coats);
            // Where the next coat is for another evening, the others can go on tonight.
            let apart = coats > 1 && wait.between.0 + each > evening;
            let own = if apart { each } else { wait.hands_on.0 };
            let begin = begins(ready, own, evening);
            days.push(whole(begin / DAY));
            painted.push(whole(begin / DAY));
            free = begin + own;
            if apart {
                let mut end = free;
                let mut last = end;
                for _ in 1..coats.min(MOST_APART) {
                    let next = begins(end + wait.between.0, each, evening);
                    painted.push(whole(next / DAY));
                    (last, end) = (end, next + each);
                }
                ends.push(end + (end - last) * f64::from(coats.saturating_sub(MOST_APART)));
            } else {
                ends.push(begin + (turn.ends.0 - turn.begins.0));
            }
        }
        painted.sort_unstable();
        painted.dedup();
        let rest = |at: usize| film.rests(at).first().map(|rest| rest.time.0).unwrap_or_default();
        let last = ends.iter().enumerate().map(|(at, end)| end + rest(at)).fold(free, f64::max);
        let evenings = painted.len();
        Self { days, painted, evenings, ready_after: whole((last / DAY).ceil()) }
    }

    /// The place of each step's evening among the evenings, from 0.
    pub fn places(&self) -> Vec<usize> {
        self.days.iter().map(|day| self.painted.partition_point(|painted| painted < day)).collect()
    }
}

/// When something that may begin at a moment begins: at once if the evening is long enough, otherwise on the next.
fn begins(earliest: f64, busy: f64, evening: f64) -> f64 {
    let gone = earliest.rem_euclid(DAY);
    let fits = gone <= 0.0 || gone + busy <= evening;
    if fits { earliest } else { (earliest / DAY).ceil() * DAY }
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
        let sittings = Sittings { days: vec![0, 0, 1, 4], painted: vec![0, 1, 2, 4], evenings: 4, ready_after: 5 };
        assert_eq!(sittings.places(), [0, 0, 1, 3], "a second coat alone has an evening too");
    }
}
