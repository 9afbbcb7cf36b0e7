//! Armies: their units find their schemes, their cupboards their paints.

use std::sync::Arc;

use super::{ResolveDesk, paints, value, versions, words_of};
use crate::guide::library::Library;
use crate::guide::{Army, EveningDay, Evenings, Scheme, Unit, checks};
use crate::measure::{Clock, Time, Weekday, hyphenated};
use crate::report::{Finding, Place, Placed, wording};
use crate::source::checks::MISSING_KEY;
use crate::source::file::{ArmyFile, DayEntry, DaysEntry, EveningsEntry, UnitEntry};
use crate::source::{Named, Source};

/// One army.
pub(super) fn resolve(
    named: &Named<Arc<ArmyFile>>,
    (source, schemes): (&Source, &[Arc<Scheme>]),
    library: &Library,
    desk: &mut ResolveDesk,
) -> Army {
    let file = &named.record;
    let units = file.units.iter().flat_map(|units| &units.value);
    Army {
        slug: named.slug.clone(),
        title: value(file.title.as_ref()).unwrap_or_else(|| words_of(&named.slug)),
        summary: value(file.summary.as_ref()),
        units: units.filter_map(|entry| unit(entry, (source, schemes), library, desk)).collect(),
        evenings: file.evenings.as_ref().and_then(|entry| evenings(&entry.value, entry.place, desk)),
        have: have(file, library, desk),
        file: named.file,
    }
}

fn unit(
    entry: &Placed<UnitEntry>,
    (source, schemes): (&Source, &[Arc<Scheme>]),
    library: &Library,
    desk: &mut ResolveDesk,
) -> Option<Unit> {
    let name = entry.scheme.as_ref()?;
    if library.names.is_unread(&format!("schemes/{}", name.value.0)) {
        return None;
    }
    let found = schemes.binary_search_by(|scheme| scheme.slug.as_str().cmp(&name.value.0));
    let Some(scheme) = found.ok().and_then(|at| schemes.get(at)) else {
        let message = format!("there is no scheme {}", wording::quoted(&name.value.0));
        let known = schemes.iter().filter(|scheme| scheme.version.is_none()).map(|scheme| scheme.slug.as_str());
        let titled = schemes.iter().find(|scheme| hyphenated(&scheme.title) == hyphenated(&name.value.0));
        let mend = match titled {
            Some(scheme) => format!("did you mean {}?", wording::quoted(scheme.base())),
            None => desk.did_you_mean(&name.value.0, "a scheme", schemes.len(), known),
        };
        desk.tell(Finding::new(&checks::UNKNOWN_SCHEME, name.place, message, mend));
        return None;
    };
    let scheme = if entry.is_plain() {
        Arc::clone(scheme)
    } else {
        versions::of_unit(entry, &name.value.0, source, schemes, desk)?
    };
    Some(Unit { scheme, models: entry.models.as_ref()?.value.0, place: entry.place })
}

fn evenings(entry: &EveningsEntry, place: Place, desk: &mut ResolveDesk) -> Option<Evenings> {
    let mut days: Vec<EveningDay> = match &entry.days.as_ref()?.value {
        DaysEntry::Alike(days) => {
            let (from, length) = hours(&DayEntry::default(), entry, "the evenings need", place, desk)?;
            days.iter().map(|day| EveningDay { day: *day, from, length }).collect()
        }
        DaysEntry::Each(days) => {
            let of_day = |(day, own): &(Placed<Weekday>, DayEntry)| {
                let needs = format!("{} needs", wording::quoted(day.value.name()));
                let (from, length) = hours(own, entry, &needs, day.place, desk)?;
                Some(EveningDay { day: day.value, from, length })
            };
            days.0.iter().map(of_day).collect::<Option<_>>()?
        }
    };
    days.sort_unstable_by_key(|one: &EveningDay| one.day);
    days.dedup_by_key(|one| one.day);
    Some(Evenings {
        days,
        first: value(entry.first.as_ref())?,
        not: entry.not.iter().flat_map(|not| &not.value).cloned().collect(),
        by: entry.by.clone(),
        place,
    })
}

/// The hours of a day, its own or else those of all evenings; what neither says is reported.
fn hours(
    own: &DayEntry,
    all: &EveningsEntry,
    needs: &str,
    place: Place,
    desk: &mut ResolveDesk,
) -> Option<(Clock, Time)> {
    let from = own.from.as_ref().or(all.from.as_ref());
    let length = own.length.as_ref().or(all.length.as_ref());
    let keys = [("from", "\"19:00\"", from.is_none()), ("length", "2 h 30 min", length.is_none())];
    for (key, example, _) in keys.into_iter().filter(|(_, _, missing)| *missing) {
        let message = format!("{needs} '{key}', and it is not here");
        desk.tell(Finding::new(&MISSING_KEY, place, message, format!("add '{key}: {example}'")));
    }
    Some((from?.value.0?, length?.value.0?))
}

fn have(
    file: &ArmyFile,
    library: &Library,
    desk: &mut ResolveDesk,
) -> Vec<(Arc<crate::guide::Paint>, crate::source::Have)> {
    let mut known = Vec::new();
    for (name, amount) in file.have.iter().flat_map(|have| &have.value.0) {
        match library.paint(&name.value.0, &mut desk.asked) {
            Some(paint) => known.push((Arc::clone(paint), *amount)),
            None => paints::tell_unknown(&name.value.0, name.place, library, desk),
        }
    }
    known
}
