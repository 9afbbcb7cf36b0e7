//! Steps of a sequence in a scheme: whose areas they lie on, and what is in place of their paints.

use std::sync::Arc;

use super::context::Context;
use super::{links, value, words_of};
use crate::guide::resolve::ResolveDesk;
use crate::guide::{Prose, Via};
use crate::report::{Files, Finding, Place, Placed, wording};
use crate::source::checks::SEQUENCE_AREAS;
use crate::source::file::UseAreas;
use crate::source::{Borrowed, Mention, SequenceSource};

/// How a step came here.
pub(super) fn via(files: &Files, by: &Borrowed) -> Via {
    let sequence = &by.document.front.sequence;
    Via {
        sequence: by.sequence.clone(),
        title: value(by.of.front.title.as_ref()).unwrap_or_else(|| words_of(&by.sequence)),
        own: by.own.clone(),
        stem: by.stem.clone(),
        source: files.shared_text(by.document.file),
        first: by.first,
        place: sequence.as_ref().map_or(Place::top_of(by.document.file), |name| name.place),
    }
}

/// The areas of the scheme that an area of the sequence stands for; of `all`, those of all its areas, and `all` itself
/// where it has none. `None`, with a finding, where the scheme does not say and has none of that name.
pub(super) fn areas_of(
    by: &Borrowed,
    name: &Placed<Mention>,
    is_known: impl Fn(&str) -> bool,
    desk: &mut ResolveDesk,
) -> Option<Vec<Placed<Mention>>> {
    let one = |area: &str| -> Option<Vec<Placed<Mention>>> {
        let said = match by.document.front.areas.as_ref().map(|areas| &areas.value) {
            Some(UseAreas::One(areas)) => Some(areas.clone()),
            Some(UseAreas::Each(table)) => {
                table.0.iter().find(|(id, _)| id.value.0 == area).map(|(_, areas)| areas.clone())
            }
            None => None,
        };
        // A list without an area says as little as none.
        let said = said.filter(|areas| !areas.is_empty());
        said.or_else(|| is_known(area).then(|| vec![Placed::new(Mention(area.to_owned()), name.place)]))
    };
    let wanted: Vec<&str> = match name.value.0.as_str() {
        "all" if by.areas().next().is_none() => return Some(vec![name.clone()]),
        "all" => by.areas().collect(),
        // What the sequence does not list is told with the sequence.
        area if !by.areas().any(|known| known == area) => return None,
        area => vec![area],
    };
    let mut found = Vec::new();
    for area in wanted {
        match one(area) {
            Some(areas) => found.extend(areas),
            None => desk.tell(not_said(by, area)),
        }
    }
    Some(found)
}

fn not_said(by: &Borrowed, area: &str) -> Finding {
    let place = by.document.front.areas.as_ref().map_or_else(|| use_place(by), |areas| areas.place);
    let quoted = wording::quoted(area);
    let message = format!(
        "the sequence {} has the area {quoted}, and this scheme has none of that name",
        wording::quoted(&by.sequence)
    );
    let mend = format!("say which of this scheme's areas it is: 'areas: {{{area}: […]}}'");
    Finding::new(&SEQUENCE_AREAS, place, message, mend).see(Place::top_of(by.of.file), "the sequence")
}

fn use_place(by: &Borrowed) -> Place {
    by.document.front.sequence.as_ref().map_or(Place::top_of(by.document.file), |name| name.place)
}

/// The title of a step in the scheme: after the words that the scheme puts before those of a sequence.
pub(super) fn title(by: Option<&Borrowed>, own: String) -> String {
    match by.and_then(|by| value(by.document.front.title.as_ref())) {
        Some(before) => format!("{before}: {own}"),
        None => own,
    }
}

/// What is in place of the sequence's paints.
pub(super) fn swaps(by: Option<&Borrowed>) -> Option<&super::mixes::Swaps> {
    by?.document.front.instead.as_ref().map(|table| &table.value)
}

/// The text of the file that stands for a sequence, before that of its first step.
pub(super) fn led_by(context: &Context<'_>, by: &Borrowed, body: Prose, desk: &mut ResolveDesk) -> Prose {
    let there = Context { file: by.document.file, ..*context };
    let lead = links::resolve(&there, by.document.body_start, desk);
    if lead.markdown().trim().is_empty() {
        return body;
    }
    let text: Arc<str> = format!("{}\n\n{}", lead.markdown().trim_end(), body.markdown()).into();
    let targets = lead.targets.into_iter().chain(body.targets).collect();
    Prose { file: body.file, text, start: 0, targets }
}

/// A sequence by itself, for its own page.
pub(super) fn sequence(
    context: &Context<'_>,
    source: &SequenceSource,
    desk: &mut ResolveDesk,
) -> crate::guide::Sequence {
    let front = &source.document.front;
    let steps = source.steps.iter().map(|step| {
        let front = &step.document.front;
        let title = value(front.title.as_ref()).unwrap_or_else(|| words_of(&step.stem));
        (step.stem.clone(), title, value(front.stage.as_ref()).unwrap_or(crate::trade::Stage::Prepare))
    });
    crate::guide::Sequence {
        slug: source.slug.clone(),
        title: value(front.title.as_ref()).unwrap_or_else(|| words_of(&source.slug)),
        summary: value(front.summary.as_ref()),
        intro: links::resolve(context, source.document.body_start, desk),
        steps: steps.collect(),
        file: source.document.file,
    }
}
