//! Of the plans that end on one evening, one that leaves less lying begun.
//!
//! A step that was begun is ended before another is opened, and a mask comes off before it has lain for long: every evening
//! that lies between asks for a fresh mix of the same colour, and for a hand that knows it no more. The best schedule is made
//! again by rules that go on with what was begun, and what comes of it is taken where it needs no further evening.

use super::Seconds;
use super::calendar::Calendar;
use super::lots::ends;
use super::random::Random;
use super::ranks::ranks;
use super::schedule::{Deed, Rule, Schedule, schedule};
use super::search::{moved, shifted, times};
use super::workload::Workload;

/// What it is worth to go on with what was begun, by how much longer a way before something else may be: some hours, days,
/// weeks, anything.
const WORTH: [Seconds; 4] = [2 * 3600, 2 * 86_400, 14 * 86_400, 1 << 40];

/// An evening more on which something lies begun weighs as much as an end so much later on the last one.
const PER_EVENING: Seconds = 1800;

/// How many schedules are made at most.
const MOST_TRIES: u32 = 60;

/// What part of the looks of a search may be spent beside them.
const PART_OF_LOOKS: u64 = 4;

/// Where the random numbers begin.
const SEED: u64 = 0x7365_7773;

/// The schedule, or one that ends on the same evening and tears less apart.
pub(super) fn sewn(work: &Workload, calendar: &Calendar, (rule, found): (Rule, Schedule)) -> Schedule {
    let last = ends(&found);
    let bad = bad(work, calendar, &found);
    let mut sew = Sew { work, calendar, last, looks: 0, best: (bad, rule, found) };
    sew.by_rules();
    sew.by_chance();
    sew.best.2
}

/// How bad a schedule is: what it tears apart with its end, then its changes of tools, then its pieces.
type Bad = (Seconds, Seconds, usize);

fn bad(work: &Workload, calendar: &Calendar, found: &Schedule) -> Bad {
    let end = calendar.worked(found.finish);
    (end + PER_EVENING * torn(work, found), found.changing, found.stretches.len())
}

struct Sew<'a> {
    work: &'a Workload,
    calendar: &'a Calendar,
    /// The evening on which it all ends.
    last: usize,
    looks: u64,
    best: (Bad, Rule, Schedule),
}

impl Sew<'_> {
    /// The order of the schedule, its rule and the plainest ones, with more and more worth in what was begun.
    fn by_rules(&mut self) {
        let (_, rule, found) = &self.best;
        let plain = Rule { weights: ranks(self.work, self.calendar), ..rule.clone() };
        let timed = Rule { weights: times(found, self.work), ..rule.clone() };
        let rules = [rule.clone(), timed, plain];
        for finish in WORTH {
            for rule in &rules {
                if !self.consider(Rule { finish, ..rule.clone() }) {
                    return;
                }
            }
        }
    }

    fn by_chance(&mut self) {
        let mut random = Random::new(SEED);
        for turn in 0..MOST_TRIES {
            let (_, rule, found) = &self.best;
            let rule = match turn % 2 {
                0 => moved(rule, found, self.work, &mut random),
                _ => shifted(rule, found, self.work, &mut random),
            };
            if !self.consider(rule) {
                return;
            }
        }
    }

    /// Makes a schedule by a rule and keeps the better one; `false` where it has looked long enough, or nothing is torn.
    fn consider(&mut self, rule: Rule) -> bool {
        let most = self.work.most_looks / PART_OF_LOOKS;
        if self.looks + self.best.2.looks > most || torn(self.work, &self.best.2) == 0 {
            return false;
        }
        let found = schedule(self.work, self.calendar, &rule);
        self.looks += found.as_ref().map_or(most, |found| found.looks);
        if let Some(found) = found.filter(|found| ends(found) <= self.last) {
            let bad = bad(self.work, self.calendar, &found);
            if bad < self.best.0 {
                self.best = (bad, rule, found);
            }
        }
        true
    }
}

/// Over how many evenings beyond their first the steps of all units lie begun, and masks on the models.
fn torn(work: &Workload, found: &Schedule) -> Seconds {
    let mut days: Vec<Option<(usize, usize)>> = vec![None; work.passes.len()];
    for stretch in &found.stretches {
        if let Deed::Paint { pass, .. } = stretch.deed
            && let Some(slot) = days.get_mut(pass)
        {
            let (first, last) = slot.unwrap_or((stretch.evening, stretch.evening));
            *slot = Some((first.min(stretch.evening), last.max(stretch.evening)));
        }
    }
    let between = |first: usize, last: usize| {
        let (first, last) = (days.get(first).copied().flatten(), days.get(last).copied().flatten());
        first.zip(last).map_or(0, |((first, _), (_, last))| last.saturating_sub(first) as Seconds)
    };
    let ends_step =
        |at: usize| work.passes.get(at + 1).zip(work.passes.get(at)).is_none_or(|(next, own)| next.coat <= own.coat);
    let lasts = (0..work.passes.len()).filter(|at| ends_step(*at));
    let steps: Seconds = lasts.map(|last| between(work.first_of_step(last), last)).sum();
    steps + work.masks.iter().map(|(on, off)| between(*on, *off)).sum::<Seconds>()
}
