//! Versions of schemes: what they are called, and which of them a unit of an army means.

use std::sync::Arc;

use super::{ResolveDesk, value, words_of};
use crate::guide::{Scheme, Version, checks};
use crate::measure::hyphenated;
use crate::report::{Finding, Placed, wording};
use crate::source::checks::UNKNOWN_VARIANT;
use crate::source::file::UnitEntry;
use crate::source::{Mention, SchemeSource, Source, StepSource, asked_by, named, place_of};

/// What comes before the steps that a version leaves out, in the guide's language.
fn without(language: &str) -> &'static str {
    match language.split('-').next().unwrap_or_default() {
        "en" => "without",
        "de" => "ohne",
        "es" => "sin",
        "fr" => "sans",
        _ => "−",
    }
}

/// What sets a scheme apart from the scheme as it is, whose title is given; in the words of a language.
pub(super) fn of(scheme: &SchemeSource, title: &str, language: &str) -> Option<Version> {
    let version = &scheme.version;
    if version.is_base() {
        return None;
    }
    let front = &scheme.scheme.front;
    let mut table = front.variants.iter().flat_map(|table| &table.value.0);
    let variant = version.variant.as_ref().map(|id| {
        let entry = table.find(|(known, _)| known.value.0 == *id);
        entry.and_then(|(_, entry)| value(entry.title.as_ref())).unwrap_or_else(|| words_of(id))
    });
    let title_of =
        |step: &StepSource| value(step.document.front.title.as_ref()).unwrap_or_else(|| words_of(&step.stem));
    let ways = scheme.steps.iter().filter(|step| version.ways.contains(&step.stem)).map(title_of);
    let ways: Vec<String> = variant.into_iter().chain(ways).collect();
    let skipped = version.skip_titles.join(", ");
    let skipped = (!skipped.is_empty()).then(|| format!("{} {skipped}", without(language)));
    Some(Version {
        of: version.of.clone(),
        of_title: title.to_owned(),
        variant: version.variant.clone(),
        ways: version.ways.clone(),
        skip: version.skip.clone(),
        brush_only: version.brush_only,
        is_without: ways.is_empty(),
        label: Some(ways.join(" · "))
            .filter(|ways| !ways.is_empty())
            .into_iter()
            .chain(skipped)
            .collect::<Vec<_>>()
            .join(", "),
        place: place_of(scheme),
    })
}

/// The version of a scheme that a unit means; what it names and there is not is reported.
pub(super) fn of_unit(
    unit: &UnitEntry,
    slug: &str,
    source: &Source,
    schemes: &[Arc<Scheme>],
    desk: &mut ResolveDesk,
) -> Option<Arc<Scheme>> {
    let versions: Vec<&SchemeSource> = source.schemes.iter().filter(|scheme| scheme.version.of == slug).collect();
    let all: Vec<StepSource> = versions.iter().flat_map(|scheme| &scheme.steps).cloned().collect();
    let before = desk.findings.len();
    check_names(unit.ways.as_ref(), &all, (is_way, "no other way of doing a step", "'other-way-for'"), desk);
    check_names(unit.skip.as_ref(), &all, (is_optional, "not optional", "'optional: …'"), desk);
    if let Some(name) = &unit.variant {
        let table = versions.first().and_then(|scheme| scheme.scheme.front.variants.as_ref());
        let known: Vec<&str> =
            table.into_iter().flat_map(|table| &table.value.0).map(|(id, _)| id.value.0.as_str()).collect();
        if !known.contains(&name.value.0.as_str()) {
            let message =
                format!("the scheme {} has no variant {}", wording::quoted(slug), wording::quoted(&name.value.0));
            let titled =
                schemes.iter().filter(|scheme| scheme.base() == slug).filter_map(|scheme| scheme.version.as_ref());
            let mut titled = titled.filter(|version| hyphenated(&version.label) == hyphenated(&name.value.0));
            let mend = match titled.find_map(|version| version.variant.as_ref()) {
                Some(variant) => format!("did you mean {}?", wording::quoted(variant)),
                None => wording::did_you_mean(&name.value.0, "a variant", &known),
            };
            desk.tell(Finding::new(&UNKNOWN_VARIANT, name.place, message, mend));
        }
    }
    if desk.findings.len() > before {
        return None;
    }
    let wanted = asked_by(&all, unit, slug)?;
    let found = versions.iter().find(|scheme| scheme.version.is_same(&wanted))?;
    schemes.iter().find(|scheme| scheme.slug == found.slug).map(Arc::clone)
}

fn is_way(step: &StepSource) -> bool {
    step.document.front.other_way_for.is_some()
}

fn is_optional(step: &StepSource) -> bool {
    let of_use = step.by.as_ref().is_some_and(|by| by.document.front.optional.is_some());
    of_use || step.document.front.optional.is_some()
}

/// Tells of names that no step has, or one of another sort.
fn check_names(
    names: Option<&Placed<Vec<Placed<Mention>>>>,
    steps: &[StepSource],
    (is_right, wrong, key): (fn(&StepSource) -> bool, &str, &str),
    desk: &mut ResolveDesk,
) {
    for name in names.into_iter().flat_map(|names| &names.value) {
        let found = named(steps, &name.value.0);
        let quoted = wording::quoted(&name.value.0);
        let (message, mend) = match found.first() {
            None => {
                let mut known: Vec<&str> =
                    steps.iter().filter(|step| is_right(step)).map(|step| step.stem.as_str()).collect();
                known.dedup();
                (
                    format!("this scheme has no step {quoted}"),
                    wording::did_you_mean(&name.value.0, "such a step", &known),
                )
            }
            Some(at) if !is_right(&steps[*at]) => {
                (format!("the step {quoted} is {wrong}"), format!("write {key} into the step, or take the name out"))
            }
            Some(_) => continue,
        };
        desk.tell(Finding::new(&checks::UNKNOWN_STEP, name.place, message, mend));
    }
}
