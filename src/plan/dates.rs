//! The dates of an army's evenings: the first day, days off, and the date by which all is to be ready.

use super::build::workload_and_splits;
use super::calendar::Calendar;
use super::checks::{DAY_OFF_WITHOUT_EVENING, FIRST_DAY_WITHOUT_EVENING, READY_BY};
use super::order::Rests;
use super::schedule::Schedule;
use super::workload::Workload;
use super::{Seconds, evening, search};
use crate::film::Conditions;
use crate::guide::{Army, Evenings};
use crate::measure::Date;
use crate::report::{Finding, Level, Placed, wording};

/// What is wrong with the dates, whatever is to be painted.
pub(super) fn check<'a>(evenings: &'a Evenings, calendar: &'a Calendar) -> impl Iterator<Item = Finding> + 'a {
    let off = evenings.not.iter().enumerate().filter_map(|(at, day)| needless(evenings, at, day));
    first(evenings, calendar).into_iter().chain(off).chain(before_the_first(evenings))
}

/// A first day on which there is no evening.
fn first(evenings: &Evenings, calendar: &Calendar) -> Option<Finding> {
    let (first, begins) = (evenings.first, calendar.date(0));
    (first != begins).then(|| {
        let message = format!("no evening is on the first day, {}: the plan begins on {}", said(first), said(begins));
        Finding::new(&FIRST_DAY_WITHOUT_EVENING, evenings.place, message, format!("write 'first: {begins}'"))
    })
}

/// A day off that takes no evening away.
fn needless(evenings: &Evenings, at: usize, day: &Placed<Date>) -> Option<Finding> {
    let date = day.value;
    let weekday = usize::try_from(date.0.weekday().to_monday_zero_offset()).unwrap_or_default();
    let why = if evenings.not.iter().take(at).any(|other| other.value == date) {
        "it is named twice".to_owned()
    } else if date < evenings.first {
        format!("the first day is {}", said(evenings.first))
    } else if !evenings.days.iter().any(|hours| hours.day.0 == weekday) {
        "no evening is on that day of the week".to_owned()
    } else {
        return None;
    };
    let message = format!("the day off {} changes nothing: {why}", said(date));
    Some(Finding::new(&DAY_OFF_WITHOUT_EVENING, day.place, message, "take it out, or write the date that you mean"))
}

/// A date to be ready by that lies before everything.
fn before_the_first(evenings: &Evenings) -> Option<Finding> {
    let by = evenings.by.as_ref().filter(|by| by.value < evenings.first)?;
    let message = format!("all is to be ready by {}, before the first day, {}", said(by.value), said(evenings.first));
    Some(Finding::new(&READY_BY, by.place, message, "write a later date after 'by', or an earlier one after 'first'"))
}

/// A date that no plan that was found keeps. The plain schedule is enough where it is kept; only where it is not, the
/// best schedule and the bound are looked for. Where only rests that nobody wrote stand against it, that is worth a word
/// and no more.
pub(super) fn too_late(
    (army, conditions): (&Army, &Conditions),
    work: &Workload,
    calendar: &Calendar,
    plain: &Schedule,
) -> Option<Finding> {
    let evenings = army.evenings.as_ref()?;
    let by = evenings.by.as_ref().filter(|by| by.value >= evenings.first)?;
    let ends = |found: &Schedule| ends(calendar, calendar.worked(found.finish));
    if ends(plain) <= by.value {
        return wet(army, by, work, calendar, plain);
    }
    let (found, _) = search::search(work, calendar).filter(|(found, _)| ends(found) > by.value)?;
    let (least, _) = workload_and_splits(army, conditions, Some(calendar), Rests::Least).ok()?;
    let quick = search::search(&least, calendar);
    let earliest = self::ends(calendar, quick.as_ref().map_or(0, |(_, bound)| *bound));
    let by_rests = quick.is_some_and(|(quick, _)| ends(&quick) <= by.value);
    let ends = ends(&found);
    let days = (ends.0 - by.value.0).get_days();
    let late = wording::counted(usize::try_from(days).unwrap_or_default(), "day", "days");
    let bound = if earliest > by.value {
        format!("no plan can end before {}", said(earliest))
    } else if by_rests {
        "shorter rests than the careful ones that are planned where no 'dry' is written would keep it".to_owned()
    } else {
        "whether a better plan exists is not known".to_owned()
    };
    let message = format!(
        "{} is painted by {}, {late} after {}; {bound}",
        wording::quoted(&army.title),
        said(ends),
        said(by.value)
    );
    let ready = evening::plan(work, calendar, &found, 0).ready().unwrap_or(ends);
    let more = if by_rests { ", or write your own 'dry' where you wait less" } else { "" };
    let mend = format!("write 'by: {ready}', begin earlier, or name more days or longer evenings{more}");
    let finding = Finding::new(&READY_BY, by.place, message, mend);
    Some(if by_rests { finding.at(Level::Note) } else { finding })
}

/// A date that is kept at the desk, while the last coat dries beyond it: worth a word.
fn wet(army: &Army, by: &Placed<Date>, work: &Workload, calendar: &Calendar, plain: &Schedule) -> Option<Finding> {
    let ready = |found: &Schedule| evening::plan(work, calendar, found, 0).ready().filter(|ready| *ready > by.value);
    ready(plain)?;
    let (found, _) = search::search(work, calendar)?;
    let (painted, ready) = (ends(calendar, calendar.worked(found.finish)), ready(&found)?);
    let days = wording::counted(usize::try_from((ready.0 - by.value.0).get_days()).unwrap_or_default(), "day", "days");
    let message = format!(
        "{} is painted by {}, and its last coat is dry on {}, {days} late",
        wording::quoted(&army.title),
        said(painted),
        said(ready)
    );
    let mend = format!("write 'by: {ready}', or begin earlier");
    Some(Finding::new(&READY_BY, by.place, message, mend).at(Level::Note))
}

/// The day on which so much time at the desk is over.
fn ends(calendar: &Calendar, worked: Seconds) -> Date {
    calendar.date(calendar.evening_of(worked))
}

/// A date with its day of the week.
fn said(date: Date) -> String {
    date.0.strftime("%a %-d %b %Y").to_string()
}
