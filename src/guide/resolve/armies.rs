//! Armies: their units find their schemes, their cupboards their paints.

use std::sync::Arc;

use super::{Desk, paints, value, words_of};
use crate::guide::library::Library;
use crate::guide::{Army, Evenings, Scheme, Unit, checks};
use crate::report::{Finding, Place, Placed, wording};
use crate::source::Named;
use crate::source::file::{ArmyFile, EveningsEntry, UnitEntry};

/// One army.
pub(super) fn resolve(
    named: &Named<Arc<ArmyFile>>,
    schemes: &[Arc<Scheme>],
    library: &Library,
    desk: &mut Desk,
) -> Army {
    let file = &named.record;
    let units = file.units.iter().flat_map(|units| &units.value);
    Army {
        slug: named.slug.clone(),
        title: value(file.title.as_ref()).unwrap_or_else(|| words_of(&named.slug)),
        summary: value(file.summary.as_ref()),
        units: units.filter_map(|entry| unit(entry, schemes, library, desk)).collect(),
        evenings: file.evenings.as_ref().and_then(|entry| evenings(&entry.value, entry.place)),
        have: have(file, library, desk),
        file: named.file,
    }
}

fn unit(entry: &Placed<UnitEntry>, schemes: &[Arc<Scheme>], library: &Library, desk: &mut Desk) -> Option<Unit> {
    let name = entry.scheme.as_ref()?;
    if library.names.is_unread(&format!("schemes/{}", name.value.0)) {
        return None;
    }
    let found = schemes.binary_search_by(|scheme| scheme.slug.as_str().cmp(&name.value.0));
    let Some(scheme) = found.ok().and_then(|at| schemes.get(at)) else {
        let message = format!("there is no scheme {}", wording::quoted(&name.value.0));
        let known = schemes.iter().map(|scheme| scheme.slug.as_str());
        let mend = desk.did_you_mean(&name.value.0, "a scheme", schemes.len(), known);
        desk.tell(Finding::new(&checks::UNKNOWN_SCHEME, name.place, message, mend));
        return None;
    };
    Some(Unit { scheme: Arc::clone(scheme), models: entry.models.as_ref()?.value.0, place: entry.place })
}

fn evenings(entry: &EveningsEntry, place: Place) -> Option<Evenings> {
    let mut days = entry.days.as_ref()?.value.clone();
    days.sort_unstable();
    days.dedup();
    Some(Evenings {
        days,
        from: value(entry.from.as_ref())?,
        length: value(entry.length.as_ref())?,
        first: value(entry.first.as_ref())?,
        place,
    })
}

fn have(file: &ArmyFile, library: &Library, desk: &mut Desk) -> Vec<(Arc<crate::guide::Paint>, crate::source::Have)> {
    let mut known = Vec::new();
    for (name, amount) in file.have.iter().flat_map(|have| &have.value.0) {
        match library.paint(&name.value.0, &mut desk.asked) {
            Some(paint) => known.push((Arc::clone(paint), *amount)),
            None => paints::tell_unknown(&name.value.0, name.place, library, desk),
        }
    }
    known
}
