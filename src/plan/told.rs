//! What is wrong with an army's evenings, and how much work an army is.

use super::build::{Split, Trouble, workload_and_splits};
use super::calendar::{Calendar, MOST_EVENINGS};
use super::checks::{COAT_TOO_LONG, NO_EVENINGS, PLAN_TOO_LONG, TOO_LONG_FOR_AN_EVENING};
use super::order::Rests;
use super::{Seconds, build, dates, search};
use crate::bench::{Bench, Figure, Minutes};
use crate::film::Conditions;
use crate::guide::{Army, Evenings, Guide, Step};
use crate::measure::Time;
use crate::report::{Finding, Level, wording};
use crate::trade::Stage;

/// How much work an army is, evenings or none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Effort {
    /// Hands-on time, in seconds.
    pub hands_on: Seconds,
    /// Hands-on time of each unit.
    pub units: Vec<Seconds>,
    /// The steps, by unit and place in the scheme, whose minutes are the usual ones of their stage.
    pub assumed: Vec<(usize, usize)>,
}

/// How much work an army is.
pub fn effort(army: &Army, conditions: &Conditions) -> Effort {
    let of_step = |unit: &crate::guide::Unit, step: &Step| {
        let coats = Seconds::from(step.coats) * Seconds::from(unit.models);
        super::usual::each(&unit.scheme, step, &conditions.bench).saturating_mul(coats)
    };
    let of_unit = |unit: &crate::guide::Unit| {
        unit.scheme.steps.iter().fold(0, |sum: Seconds, step| sum.saturating_add(of_step(unit, step)))
    };
    let units: Vec<Seconds> = army.units.iter().map(of_unit).collect();
    let assumed = army.units.iter().enumerate().flat_map(|(at, unit)| {
        let silent = unit.scheme.steps.iter().enumerate().filter(|(_, step)| step.minutes.is_none());
        silent.map(move |(step, _)| (at, step))
    });
    Effort {
        hands_on: units.iter().fold(0, |sum: Seconds, one| sum.saturating_add(*one)),
        assumed: assumed.collect(),
        units,
    }
}

/// What is wrong with the evenings of a guide's armies.
pub fn check(guide: &Guide, conditions: &Conditions) -> Vec<Finding> {
    let armies = guide.armies.iter().filter(|army| army.units.iter().all(|unit| unit.scheme.whole));
    armies
        .filter_map(|army| Some((army, army.evenings.as_ref()?)))
        .flat_map(|(army, evenings)| of_army(army, evenings, conditions))
        .collect()
}

fn of_army(army: &Army, evenings: &Evenings, conditions: &Conditions) -> Vec<Finding> {
    let mut found = Vec::new();
    let Some(calendar) = Calendar::of(evenings) else {
        let (message, mend) = if evenings.days.is_empty() {
            ("the evenings have no days".to_owned(), "name at least one, such as 'days: [tue, thu]'")
        } else {
            ("an evening has no length".to_owned(), "say how long there is to paint, such as 'length: 2 h'")
        };
        return vec![Finding::new(&NO_EVENINGS, evenings.place, message, mend)];
    };
    found.extend(overlong(evenings, &calendar));
    found.extend(dates::check(evenings, &calendar));
    match workload_and_splits(army, conditions, Some(&calendar), Rests::Careful) {
        Err(trouble) => found.push(told(army, evenings, calendar.longest(), &trouble)),
        Ok((work, splits)) => {
            found.extend(splits.iter().filter_map(|one| {
                if one.masked {
                    over_night(army, evenings, &calendar, (&conditions.bench, one))
                } else {
                    split(army, evenings, (calendar.longest(), &conditions.bench), one)
                }
            }));
            match search::first(&work, &calendar) {
                None => found.push(endless(army, evenings, conditions)),
                Some(first) => found.extend(dates::too_late((army, conditions), &work, &calendar, &first)),
            }
        }
    }
    found
}

/// Evenings that run into the next one.
fn overlong<'a>(evenings: &'a Evenings, calendar: &'a Calendar) -> impl Iterator<Item = Finding> + 'a {
    calendar.clipped().iter().map(|(hours, held)| {
        let (day, asked, held) = (hours.day.name(), said(Seconds::from(hours.length.as_seconds())), said(*held));
        let message = format!("the evening of {day}, {asked} long, runs into the next one; it is planned as {held}");
        Finding::new(&NO_EVENINGS, evenings.place, message, format!("write 'length: {held}' or less"))
    })
}

fn told(army: &Army, evenings: &Evenings, longest: Seconds, trouble: &Trouble) -> Finding {
    match *trouble {
        Trouble::TooManyPasses => {
            let message = format!(
                "{} has more than {} coats to lay, so no plan is made",
                wording::quoted(&army.title),
                build::MOST_PASSES
            );
            Finding::new(&PLAN_TOO_LONG, evenings.place, message, "split the army into several files")
        }
        Trouble::CoatTooLong { unit, step, takes } => {
            let title = title(army, unit, step).map_or("", |step| step.title.as_str());
            let message = format!(
                "one coat of {} on one model takes {} with setting up and cleaning; an evening has {}, so there is no plan",
                wording::quoted(title),
                said(takes),
                said(longest)
            );
            let mend = format!("make the evenings at least {} long, or the step shorter", needed(takes));
            let finding = Finding::new(&COAT_TOO_LONG, evenings.place, message, mend);
            match title_place(army, unit, step) {
                Some(place) => finding.see(place, "the step"),
                None => finding,
            }
        }
    }
}

fn split(army: &Army, evenings: &Evenings, (longest, bench): (Seconds, &Bench), split: &Split) -> Option<Finding> {
    let unit = army.units.get(split.unit)?;
    let all = unit.scheme.steps.get(split.first..=split.last)?;
    let titles = all.iter().map(|step| &step.title);
    let (steps, takes, length) = (wording::listed(titles), said(split.takes), said(longest));
    let models = wording::counted(usize::try_from(unit.models).unwrap_or(usize::MAX), "model", "models");
    let message = if split.whole {
        format!("{steps} for {models} together takes {takes}; an evening has {length}")
    } else {
        let why = must_follow(all.last().map(|step| step.stage));
        format!("{steps} on one evening takes {takes} for one model{why}; an evening has {length}")
    };
    let long = needed(split.takes);
    let mend = match split.fits {
        0 => {
            let shorter = shorter_dry(all, split.takes.saturating_sub(longest), bench).unwrap_or_default();
            format!("make the evenings at least {long} long{shorter}")
        }
        fits => format!("make the evenings at least {long} long, or do it in lots: {fits} models go into one evening"),
    };
    let finding = Finding::new(&TOO_LONG_FOR_AN_EVENING, evenings.place, message, mend);
    let finding = match title_place(army, split.unit, split.first) {
        Some(place) => finding.see(place, "the step"),
        None => finding,
    };
    Some(finding.see(unit.place, "the unit"))
}

/// A mask that lies from one evening to another, which is longer than it may: worth a word, as tape and putty often bear it.
fn over_night(
    army: &Army,
    evenings: &Evenings,
    calendar: &Calendar,
    (bench, split): (&Bench, &Split),
) -> Option<Finding> {
    let longest = Minutes(bench.get(Figure::MaskLongest)).as_time();
    let unit = army.units.get(split.unit)?;
    let (on, off) = (unit.scheme.steps.get(split.first)?, unit.scheme.steps.get(split.last)?);
    let lies = calendar.rhythm().saturating_sub(calendar.longest());
    (lies > Seconds::from(longest.as_seconds())).then(|| {
        let (on, off) = (wording::quoted(&on.title), wording::quoted(&off.title));
        let (takes, length) = (said(split.takes), said(calendar.longest()));
        let message = format!(
            "the mask of {on} lies on the paint over night, longer than {}: until {off} it takes {takes}; an evening has {length}",
            said(Seconds::from(longest.as_seconds()))
        );
        let long = needed(split.takes);
        let mend = format!(
            "make the evenings at least {long} long, take the mask off between two colours, or use one that may lie, and press it on lightly"
        );
        let finding = Finding::new(&TOO_LONG_FOR_AN_EVENING, evenings.place, message, mend).at(Level::Note);
        match title_place(army, split.unit, split.first) {
            Some(place) => finding.see(place, "the mask").see(unit.place, "the unit"),
            None => finding,
        }
    })
}

/// Why the last of some steps can't wait for another evening.
fn must_follow(last: Option<Stage>) -> &'static str {
    match last {
        Some(Stage::Unmask) => ", because tape tears the edge of a film that has hardened",
        Some(Stage::Chip) => ", because a film that has hardened does not chip",
        _ => "",
    }
}

/// A shorter rest where an author wrote one under a mask: so much shorter that all goes into an evening, and still long enough
/// for the tape to be pulled.
fn shorter_dry(steps: &[Step], too_long: Seconds, bench: &Bench) -> Option<String> {
    let (last, before) = steps.split_last()?;
    let rested = before.last().filter(|_| last.stage == Stage::Unmask)?;
    let enough = bench.get(Figure::UnmaskRest) * 60.0;
    let dry = Seconds::from(rested.dry?.as_seconds()).checked_sub(too_long)? / 300 * 300;
    let shorter = (dry as f64 >= enough.max(300.0)).then(|| said(dry))?;
    Some(format!(", or write 'dry: {shorter}' for {}", wording::quoted(&rested.title)))
}

fn endless(army: &Army, evenings: &Evenings, conditions: &Conditions) -> Finding {
    let hours = effort(army, conditions).hands_on / 3600;
    let message = format!(
        "{} takes more than {MOST_EVENINGS} evenings: its hands-on time alone is {hours} h",
        wording::quoted(&army.title)
    );
    Finding::new(
        &PLAN_TOO_LONG,
        evenings.place,
        message,
        "name more days or longer evenings, or split the army into several files",
    )
}

fn title(army: &Army, unit: usize, step: usize) -> Option<&Step> {
    army.units.get(unit)?.scheme.steps.get(step)
}

fn title_place(army: &Army, unit: usize, step: usize) -> Option<crate::report::Place> {
    title(army, unit, step).map(|step| step.places.title)
}

/// A length of time as an author writes it, in whole minutes and never less than it is.
fn said(seconds: Seconds) -> String {
    let minutes = seconds.div_ceil(60);
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

/// The same, rounded up to five minutes: what to write.
fn needed(seconds: Seconds) -> String {
    said(seconds.div_ceil(300) * 300)
}

/// As a [`Time`], which is what pages show.
impl Effort {
    /// Hands-on time of a unit.
    pub fn of_unit(&self, unit: usize) -> Time {
        let seconds = self.units.get(unit).copied().unwrap_or_default();
        Time::seconds(u32::try_from(seconds).unwrap_or(u32::MAX))
    }
}
