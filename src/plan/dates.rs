//! The dates of an army's evenings: the first day, days off, and the date by which all is to be ready.

use super::build::workload_and_splits;
use super::calendar::Calendar;
use super::checks::{DAY_OFF_WITHOUT_EVENING, FIRST_DAY_WITHOUT_EVENING, READY_BY};
use super::chosen::chosen;
use super::evening::Plan;
use super::order::Rests;
use super::schedule::Schedule;
use super::workload::Workload;
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

/// A date by which the plan is not painted and dry. It is asked for only where the schedule that the search begins with
/// leaves a doubt.
pub(super) fn too_late(
    (army, conditions): (&Army, &Conditions),
    work: &Workload,
    calendar: &Calendar,
    first: &Schedule,
) -> Option<Finding> {
    let evenings = army.evenings.as_ref()?;
    let by = evenings.by.as_ref().filter(|by| by.value >= evenings.first)?;
    if ready_at_the_latest(work, calendar, first) <= by.value {
        return None;
    }
    let late = Late::of(&chosen(work, calendar)?, by.value)?;
    if late.painted <= by.value {
        Some(wet(army, by, &late))
    } else {
        unpainted((army, conditions), by, calendar, &late)
    }
}

/// The day by which every plan is painted and dry that ends on no later evening than a schedule.
fn ready_at_the_latest(work: &Workload, calendar: &Calendar, found: &Schedule) -> Date {
    let evening = calendar.evening_of(calendar.worked(found.finish));
    let rest = work.passes.iter().map(|pass| pass.rest).max().unwrap_or_default();
    calendar.date_of(calendar.end(evening).saturating_add(rest))
}

/// A plan that does not keep its date.
struct Late {
    painted: Date,
    ready: Date,
    /// By how much: `1 day`.
    days: String,
}

impl Late {
    fn of(plan: &Plan, by: Date) -> Option<Self> {
        let spare = plan.days_to_spare(by).filter(|spare| *spare < 0)?;
        let days = wording::counted(usize::try_from(spare.unsigned_abs()).unwrap_or_default(), "day", "days");
        Some(Self { painted: plan.painted()?, ready: plan.ready()?, days })
    }
}

/// A date on which there is still something to paint. Where only rests that nobody wrote stand against it, that is worth a
/// word and no more.
fn unpainted(
    (army, conditions): (&Army, &Conditions),
    by: &Placed<Date>,
    calendar: &Calendar,
    late: &Late,
) -> Option<Finding> {
    let (least, _) = workload_and_splits(army, conditions, Some(calendar), Rests::Least).ok()?;
    let quick = chosen(&least, calendar);
    let earliest = calendar.date(calendar.evening_of(quick.as_ref().map_or(0, |quick| quick.bound)));
    let by_rests = quick.and_then(|quick| quick.days_to_spare(by.value)).is_some_and(|spare| spare >= 0);
    let bound = if earliest > by.value {
        format!("no plan can end before {}", said(earliest))
    } else if by_rests {
        "shorter rests than the careful ones that are planned where no 'dry' is written would keep it".to_owned()
    } else {
        "whether a better plan exists is not known".to_owned()
    };
    let Late { painted, ready, days } = late;
    let dry = if ready > painted { format!(" and dry on {}", said(*ready)) } else { String::new() };
    let (title, painted, date) = (wording::quoted(&army.title), said(*painted), said(by.value));
    let message = format!("{title} is painted by {painted}{dry}, {days} after {date}; {bound}");
    let more = if by_rests { ", or write your own 'dry' where you wait less" } else { "" };
    let mend = format!("write 'by: {ready}', begin earlier, or name more days or longer evenings{more}");
    let finding = Finding::new(&READY_BY, by.place, message, mend);
    Some(if by_rests { finding.at(Level::Note) } else { finding })
}

/// A date that is kept at the desk, while the last coat dries beyond it: worth a word.
fn wet(army: &Army, by: &Placed<Date>, late: &Late) -> Finding {
    let Late { painted, ready, days } = late;
    let (title, painted, dry) = (wording::quoted(&army.title), said(*painted), said(*ready));
    let message = format!("{title} is painted by {painted}, and its last coat is dry on {dry}, {days} late");
    let mend = format!("write 'by: {ready}', or begin earlier");
    Finding::new(&READY_BY, by.place, message, mend).at(Level::Note)
}

/// A date with its day of the week.
fn said(date: Date) -> String {
    date.0.strftime("%a %-d %b %Y").to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::door::Memory;
    use crate::plan::search;

    /// The plan of an army that is to be ready by a date, and what is said about that. 24 models at 5 min each and a brush to
    /// take up are more than the two hours of the first Tuesday; the coat dries for a day.
    fn planned(by: &str) -> (Plan, Option<Finding>) {
        let army = format!(
            "title: Watch\nunits: [{{scheme: s, models: 24}}]\n\
             evenings: {{days: [tue, thu], from: \"19:00\", length: 2 h, first: 2027-01-12, by: {by}}}\n"
        );
        let step =
            "{title: Cloth, stage: basecoat, areas: [cloth], with: brush, paints: [moss], dry: 24 h, minutes: 5}";
        let paints = "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n  moss: {name: Moss, kind: paint}\n";
        let door = Memory::default()
            .with("content/guide.yaml", "title: T\nauthor: A\n")
            .with("content/paints/mere.yaml", paints)
            .with("content/schemes/s/scheme.md", "---\ntitle: S\nareas: {cloth: 100%}\n---\n")
            .with("content/schemes/s/10-cloth.md", format!("---\n{step}\n---\n"))
            .with("content/armies/watch.yaml", army);
        let (guide, findings) = crate::guide::resolve(&mut crate::source::read(&door).unwrap());
        assert!(findings.is_empty(), "{findings:?}");
        let (army, conditions) = (&guide.armies[0], &Conditions::of(&guide));
        let calendar = Calendar::of(army.evenings.as_ref().unwrap()).unwrap();
        let (work, _) = workload_and_splits(army, conditions, Some(&calendar), Rests::Careful).unwrap();
        let first = search::first(&work, &calendar).unwrap();
        (chosen(&work, &calendar).unwrap(), too_late((army, conditions), &work, &calendar, &first))
    }

    #[test]
    fn a_check_is_as_late_as_the_plan() {
        for (by, days, says) in [
            (
                "2027-01-12",
                -3,
                Some("painted by Thu 14 Jan 2027 and dry on Fri 15 Jan 2027, 3 days after Tue 12 Jan 2027;"),
            ),
            (
                "2027-01-14",
                -1,
                Some("painted by Thu 14 Jan 2027, and its last coat is dry on Fri 15 Jan 2027, 1 day late"),
            ),
            ("2027-01-15", 0, None),
        ] {
            let (plan, finding) = planned(by);
            let date = Date(by.parse().unwrap());
            assert_eq!(plan.days_to_spare(date), Some(days), "{by}");
            assert_eq!(finding.is_some(), says.is_some(), "{by}: {finding:?}");
            let Some((finding, says)) = finding.zip(says) else { continue };
            assert!(finding.message.contains(says), "{}", finding.message);
            let ready = plan.ready().unwrap();
            assert!(finding.mend.starts_with(&format!("write 'by: {ready}'")), "{}", finding.mend);
        }
    }
}
