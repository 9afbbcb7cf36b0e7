//! Steps: areas, mixes, tools and earlier steps are looked up; what the stage settles is filled in.

use std::sync::Arc;

use super::context::Context;
use super::mixes::Swaps;
use super::{ResolveDesk, borrowed, links, mixes, own_cautions, photos, value, words_of};
use crate::guide::library::{Library, behind_number};
use crate::guide::{Area, Mix, Pot, Prose, Step, StepPlaces, Target, Thing, Tool, Waiver, checks, first_sentence};
use crate::measure::{Date, Share, hyphenated};
use crate::report::{Files, Finding, Place, Placed, wording};
use crate::source::file::StepFile;
use crate::source::{Id, Mention, SchemeSource, StepSource, Tried};
use crate::trade::{Direction, Stage, Technique, ToolKind};

/// All steps of a scheme. A step whose stage or technique can't be read still has its place in the order.
pub(super) fn resolve(
    files: &Files,
    library: &Library,
    scheme: &SchemeSource,
    (areas, pots, swaps): (&[Area], &[Arc<Pot>], Option<&Swaps>),
    is_unread: bool,
    desk: &mut ResolveDesk,
) -> Vec<Step> {
    let bench = StepBench { files, library, scheme, areas, pots, swaps, is_unread };
    let steps = scheme.steps.iter().enumerate();
    steps.map(|(at, step)| resolve_one(&bench, at, step, desk)).collect()
}

/// What a step is resolved against.
struct StepBench<'a> {
    files: &'a Files,
    library: &'a Library,
    scheme: &'a SchemeSource,
    areas: &'a [Area],
    pots: &'a [Arc<Pot>],
    swaps: Option<&'a Swaps>,
    /// Whether something of the scheme could not be read.
    is_unread: bool,
}

fn resolve_one(bench: &StepBench<'_>, at: usize, step: &StepSource, desk: &mut ResolveDesk) -> Step {
    let front = &step.document.front;
    let file = step.document.file;
    let context = Context { files: bench.files, library: bench.library, file };
    let places = places(front, Place::top_of(file));
    let stage = value(front.stage.as_ref()).unwrap_or(Stage::Prepare);
    let (areas, all_over) = areas(bench, step, stage, places.title, desk);
    let by = step.by.as_ref();
    let swaps: Vec<&Swaps> = borrowed::swaps(by).into_iter().chain(bench.swaps).collect();
    let body = links::resolve(&context, step.document.body_start, desk);
    let led = by.filter(|by| by.first);
    let mut photos = photos::list(&context, front.photos.as_ref(), desk);
    let photo = photos::resolve(&context, photos::AFTER, (front.photo.as_ref(), front.alt.as_ref()), desk);
    let photo = photo.or_else(|| (!photos.is_empty()).then(|| photos.remove(0)));
    Step {
        stem: step.stem.clone(),
        via: by.map(|by| Box::new(borrowed::via(bench.files, by))),
        number: at + 1,
        title: borrowed::title(by, value(front.title.as_ref()).unwrap_or_else(|| words_of(&step.stem))),
        stage,
        areas,
        all_over,
        hides: hides(bench, step, stage, desk),
        covers: covers(front, stage, desk),
        reach: value(front.r#where.as_ref()).unwrap_or_else(|| stage.reach()),
        from: from(front, stage, desk),
        technique: value(front.with.as_ref()).unwrap_or(Technique::Brush),
        mix: mix(front, mixes::Pots::of(bench.pots, &swaps, by.map(|_| file)), bench.library, desk),
        deep: value(front.deep.as_ref()),
        coats: front.coats.as_ref().map_or(1, |coats| coats.value.0),
        wait: value(front.wait.as_ref()),
        dry: value(front.dry.as_ref()),
        tools: tools(front, bench.library, desk),
        safety: own_cautions::read(front.safety.as_ref(), desk),
        minutes: value(front.minutes.as_ref()),
        together: front.together.as_ref().is_some_and(|flag| flag.0),
        after: after(bench, at, front, desk),
        optional: optional(step),
        other_way_for: other_way_for(step),
        photo: photo.map(Box::new),
        photos,
        before: photos::resolve(&context, photos::BEFORE, (front.before.as_ref(), front.before_alt.as_ref()), desk)
            .map(Box::new),
        // What the scheme says before the step is no sentence on what to do in it.
        card: value(front.card.as_ref()).or_else(|| led.and_then(|_| first_sentence(body.markdown()))),
        video: value(front.video.as_ref()),
        changed: changed(front),
        waivers: waivers(front),
        body: within(
            bench.scheme,
            match led {
                Some(by) => borrowed::led_by(&context, by, body, desk),
                None => body,
            },
        ),
        file,
        places,
        source: bench.files.shared_text(file),
    }
}

/// How much of its areas a mask covers; all of them is what it does anyway.
fn covers(front: &StepFile, stage: Stage, desk: &mut ResolveDesk) -> Option<Share> {
    let covers = front.covers.as_ref()?;
    if stage != Stage::Mask {
        let message = "'covers' says how much of its areas a mask covers";
        let mend = "write it in the step with 'stage: mask', or take it out";
        desk.tell(Finding::new(&checks::COVERS, covers.place, message, mend));
        return None;
    }
    let (message, mend) = match covers.value {
        share if share == Share::percent(0) => ("a mask that covers nothing keeps nothing", "say how much it covers"),
        _ if front.r#where.is_some() => (
            "'covers' is a part of the whole area, and 'where' another",
            "leave one of them out: edges along tape need no 'covers'",
        ),
        share => return Some(share).filter(|share| *share < Share::percent(100)),
    };
    desk.tell(Finding::new(&checks::COVERS, covers.place, message, mend));
    None
}

/// From where a coat comes. What is masked, cut or glued comes from nowhere.
fn from(front: &StepFile, stage: Stage, desk: &mut ResolveDesk) -> Option<Direction> {
    let from = front.from.as_ref()?;
    let lays = !matches!(stage, Stage::Prepare | Stage::Assemble | Stage::Mask | Stage::Unmask | Stage::Decal);
    if !lays {
        let message = format!("a step of the stage '{stage}' lays nothing that comes from one side");
        desk.tell(Finding::new(&checks::DIRECTION, from.place, message, "take 'from' out"));
    }
    Some(from.value).filter(|_| lays)
}

/// What is in the cup.
fn mix(front: &StepFile, pots: mixes::Pots<'_>, library: &Library, desk: &mut ResolveDesk) -> Mix {
    let unmixed = front.unmixed.as_ref().is_some_and(|flag| flag.0);
    match &front.blend {
        Some(names) => mixes::blended((names, front.paints.as_ref()), pots, library, desk),
        None => mixes::resolve(front.paints.as_ref(), unmixed, pots, library, desk),
    }
}

/// A text in a version of a scheme, whose links to steps of the scheme lead to those of the version.
pub(super) fn within(scheme: &SchemeSource, mut body: Prose) -> Prose {
    if scheme.version.is_base() {
        return body;
    }
    for target in &mut body.targets {
        if let Target::Thing(Thing::Step(slug, stem), _) = target
            && *slug == scheme.version.of
            && scheme.steps.iter().any(|step| step.stem == *stem)
        {
            slug.clone_from(&scheme.slug);
        }
    }
    body
}

/// The steps whose work a step does by other means; those of its own sequence by their names in the scheme.
fn other_way_for(step: &StepSource) -> Vec<String> {
    let names = step.document.front.other_way_for.iter().flat_map(|names| &names.value);
    let in_scheme = |name: &Placed<Mention>| match &step.by {
        Some(by) => format!("{}-{}", by.stem, name.value.0),
        None => name.value.0.clone(),
    };
    names.map(in_scheme).collect()
}

/// When a step may be left out: its own word, or that of the file that stands for its sequence.
fn optional(step: &StepSource) -> Option<String> {
    let of_use = step.by.as_ref().and_then(|by| value(by.document.front.optional.as_ref()));
    value(step.document.front.optional.as_ref()).or(of_use).map(|when| when.0)
}

fn places(front: &StepFile, top: Place) -> StepPlaces {
    fn place<T>(placed: Option<&Placed<T>>, otherwise: Place) -> Place {
        placed.map_or(otherwise, |placed| placed.place)
    }
    let title = place(front.title.as_ref(), top);
    StepPlaces {
        title,
        stage: place(front.stage.as_ref(), title),
        areas: place(front.areas.as_ref(), title),
        reach: front.r#where.as_ref().map(|placed| placed.place),
        from: place(front.from.as_ref(), title),
        technique: place(front.with.as_ref(), title),
        paints: place(front.paints.as_ref(), title),
        deep: place(front.deep.as_ref(), title),
        coats: place(front.coats.as_ref(), title),
        wait: place(front.wait.as_ref(), title),
        dry: place(front.dry.as_ref(), title),
        minutes: place(front.minutes.as_ref(), title),
        video: place(front.video.as_ref(), title),
    }
}

/// The areas of a step by their positions, and whether they are all.
fn areas(
    bench: &StepBench<'_>,
    step: &StepSource,
    stage: Stage,
    title: Place,
    desk: &mut ResolveDesk,
) -> (Vec<usize>, bool) {
    let front = &step.document.front;
    let everything = || (0..bench.areas.len()).collect();
    // A list without an entry says as little as no list; where an entry could not be read, that has been told.
    let is_empty = |names: &Placed<Tried<Vec<Placed<Mention>>>>| names.value.0.as_ref().is_some_and(Vec::is_empty);
    if bench.is_unread && front.areas.as_ref().is_some_and(is_empty) {
        return (everything(), true);
    }
    let Some(names) = front.areas.as_ref().filter(|names| !is_empty(names)) else {
        if stage.needs_areas() && front.stage.is_some() {
            let message = format!("a step of the stage '{stage}' says which areas it is about");
            let mend = "add 'areas: [all]', or name the areas; what goes on the base alone is 'stage: basing'";
            desk.tell(Finding::new(&checks::AREAS_MISSING, title, message, mend));
        }
        return (everything(), true);
    };
    // What can't be read has been told.
    let Some(names) = &names.value.0 else { return (everything(), true) };
    let (everywhere, single): (Vec<_>, Vec<_>) =
        meant(bench, step, names, desk).into_iter().partition(|name| name.value.0 == "all");
    let found = positions(bench, front, &single, desk);
    if !everywhere.is_empty() {
        return (everything(), true);
    }
    let all_over = !found.is_empty() && found.len() == bench.areas.len();
    (found, all_over)
}

/// The areas that a step shuts in. Only one that assembles does that.
fn hides(bench: &StepBench<'_>, step: &StepSource, stage: Stage, desk: &mut ResolveDesk) -> Vec<usize> {
    let front = &step.document.front;
    let Some(names) = &front.hides else { return Vec::new() };
    if stage != Stage::Assemble {
        let message = "'hides' says what is out of reach once something is assembled";
        let mend = "write it in a step with 'stage: assemble', or take it out";
        desk.tell(Finding::new(&checks::HIDES, names.place, message, mend));
        return Vec::new();
    }
    let meant = meant(bench, step, &names.value, desk);
    positions(bench, front, &meant, desk)
}

/// The names of areas in the scheme, where a step of a sequence has names of its own.
fn meant(
    bench: &StepBench<'_>,
    step: &StepSource,
    names: &[Placed<Mention>],
    desk: &mut ResolveDesk,
) -> Vec<Placed<Mention>> {
    // Without areas that could be read, nothing that is missing among them is a mistake.
    let are_unread = bench.scheme.scheme.front.areas.is_none();
    let is_known = |area: &str| are_unread || bench.areas.iter().any(|known| known.id == area);
    match &step.by {
        Some(by) => {
            let of_name = |name| borrowed::areas_of(by, name, is_known, desk).unwrap_or_default();
            names.iter().flat_map(of_name).collect()
        }
        None => names.to_vec(),
    }
}

/// The areas of these names by their positions, each once.
fn positions(bench: &StepBench<'_>, front: &StepFile, names: &[Placed<Mention>], desk: &mut ResolveDesk) -> Vec<usize> {
    let mut found = Vec::new();
    for name in names {
        match bench.areas.iter().position(|area| area.id == name.value.0) {
            Some(area) if found.contains(&area) => {}
            Some(area) => found.push(area),
            // Without areas that could be read no name of one is a mistake.
            None if bench.scheme.scheme.front.areas.is_none() => {}
            None => {
                if let Some(area) = misread(bench, name) {
                    found.push(area);
                } else {
                    let finding = unknown_area(bench, front, name, desk);
                    desk.tell(finding);
                }
            }
        }
    }
    found
}

/// The area that is named by the words that its own id could not be read from: that has been told.
fn misread(bench: &StepBench<'_>, name: &Placed<Mention>) -> Option<usize> {
    let meant = hyphenated(&name.value.0);
    let was_misread = |area: &Area| {
        let text = bench.files.shared_text(area.place.file);
        let range = area.place.start as usize..area.place.end as usize;
        text.get(range).is_some_and(|written| written.trim_matches(['"', '\'']) != area.id)
    };
    bench.areas.iter().position(|area| area.id == meant && was_misread(area))
}

fn unknown_area(bench: &StepBench<'_>, front: &StepFile, name: &Placed<Mention>, desk: &mut ResolveDesk) -> Finding {
    let known = bench.areas.iter().map(|area| area.id.as_str()).chain(["all"]);
    let message = format!("this scheme has no area {}", wording::quoted(&name.value.0));
    let mend = without_comma(bench, name, front)
        .unwrap_or_else(|| desk.did_you_mean(&name.value.0, "an area", bench.areas.len() + 1, known));
    let finding = Finding::new(&checks::UNKNOWN_AREA, name.place, message, mend);
    match &bench.scheme.scheme.front.areas {
        Some(areas) => finding.see(areas.place, "the areas of the scheme"),
        None => finding,
    }
}

/// The mend where a name is those of several areas, with no comma between them.
fn without_comma(bench: &StepBench<'_>, name: &Placed<Mention>, front: &StepFile) -> Option<String> {
    let whole = hyphenated(&name.value.0);
    let is_known = |id: &str| bench.areas.iter().any(|area| area.id == id);
    let pieces: Vec<String> = name.value.0.split([' ', ',', ';', '/', '+', '&']).map(hyphenated).collect();
    let pieces: Vec<&str> = pieces.iter().map(String::as_str).filter(|piece| !matches!(*piece, "" | "and")).collect();
    if pieces.len() < 2 || is_known(&whole) || !pieces.iter().all(|piece| is_known(piece)) {
        return None;
    }
    let alone = front.areas.as_ref().is_some_and(|areas| areas.place == name.place);
    let (open, close) = if alone { ("[", "]") } else { ("", "") };
    Some(format!("did you mean '{open}{}{close}'?", pieces.join(", ")))
}

fn tools(front: &StepFile, library: &Library, desk: &mut ResolveDesk) -> Vec<Arc<Tool>> {
    let mut tools: Vec<Arc<Tool>> = Vec::new();
    for name in front.tools.iter().flat_map(|names| &names.value) {
        if tools.iter().any(|known| known.id == name.value.0) {
            continue;
        }
        let listed = library.tool(&name.value.0, &mut desk.asked).cloned();
        tools.push(listed.unwrap_or_else(|| {
            if !library.names.is_unread("tools.yaml") {
                let finding = not_listed(name, library, desk);
                desk.tell(finding);
            }
            Arc::new(unlisted(name))
        }));
    }
    tools
}

fn not_listed(name: &Placed<Id>, library: &Library, desk: &mut ResolveDesk) -> Finding {
    let known = &library.names.tools;
    let near = desk.nearest(&name.value.0, known.len(), known.iter().map(String::as_str));
    let mend = match near {
        Some(near) => format!("did you mean {}?", wording::quoted(near)),
        None => format!("add '{}: …' to tools.yaml", name.value.0),
    };
    let message = format!("the tool {} is not listed", wording::quoted(&name.value.0));
    Finding::new(&checks::TOOL_NOT_LISTED, name.place, message, mend)
}

fn unlisted(name: &Placed<Id>) -> Tool {
    Tool {
        id: name.value.0.clone(),
        name: words_of(&name.value.0),
        kind: ToolKind::Tool,
        per_model: None,
        pack: None,
        price: None,
        note: None,
        place: name.place,
        listed: false,
    }
}

/// The earlier steps that a step names, by their positions.
fn after(bench: &StepBench<'_>, at: usize, front: &StepFile, desk: &mut ResolveDesk) -> Vec<usize> {
    let mut found = Vec::new();
    for name in front.after.iter().flat_map(|names| &names.value) {
        let position = position_of(&bench.scheme.steps, at, &name.value.0);
        match position {
            Some(earlier) if earlier < at => found.push(earlier),
            Some(later) => desk.tell(after_later(name, &bench.scheme.steps[later], later == at)),
            None if bench.scheme.left_out.contains(&name.value.0) => {}
            None if bench
                .library
                .names
                .is_unread(&format!("schemes/{}/{}.md", bench.scheme.version.of, name.value.0)) => {}
            None => {
                let finding = unknown_step(bench, name, desk);
                desk.tell(finding);
            }
        }
    }
    found
}

/// The step of a name; where steps were given other numbers, the one with the same name behind its number.
fn position_of(steps: &[StepSource], at: usize, name: &str) -> Option<usize> {
    let by = |step: &'_ StepSource| step.by.as_ref().map(|by| (by.stem.clone(), by.own.clone()));
    let (here, _) = steps.get(at).and_then(by).unwrap_or_default();
    // Inside a sequence its own steps come first; the file that stands for one means the last of its steps.
    let inside = steps.iter().position(|step| by(step).is_some_and(|(stem, own)| stem == here && own == name));
    let whole = || steps.iter().rposition(|step| by(step).is_some_and(|(stem, _)| stem == name && stem != here));
    let own = inside.or_else(|| steps.iter().position(|step| step.stem == name)).or_else(whole);
    own.or_else(|| renumbered(steps, name))
}

/// The one step with the same name behind its number.
fn renumbered(steps: &[StepSource], name: &str) -> Option<usize> {
    let wanted = behind_number(name)?;
    let mut same = steps.iter().enumerate().filter(|(_, step)| behind_number(&step.stem) == Some(wanted));
    same.next().filter(|_| same.next().is_none()).map(|(at, _)| at)
}

fn after_later(name: &Placed<Mention>, later: &StepSource, itself: bool) -> Finding {
    let (message, mend) = if itself {
        ("this step is said to come after itself".to_owned(), "take the name out".to_owned())
    } else {
        let message = format!("this step is said to come after '{}', which has a later number", name.value.0);
        (message, "give this step a number after it, or take the name out".to_owned())
    };
    Finding::new(&checks::AFTER_LATER_STEP, name.place, message, mend)
        .see(Place::top_of(later.document.file), "the step that is named")
}

fn unknown_step(bench: &StepBench<'_>, name: &Placed<Mention>, desk: &mut ResolveDesk) -> Finding {
    let steps = &bench.scheme.steps;
    let known = steps.iter().map(|step| step.stem.as_str());
    let message = format!("this scheme has no step {}", wording::quoted(&name.value.0));
    let mend = desk.did_you_mean(&name.value.0, "a step", steps.len(), known);
    Finding::new(&checks::UNKNOWN_STEP, name.place, message, mend)
}

/// What changed, the newest first.
fn changed(front: &StepFile) -> Vec<(Date, String)> {
    let entries = front.changed.iter().flat_map(|table| &table.value.0);
    let mut changed: Vec<(Date, String)> = entries.map(|(day, what)| (day.value, what.clone())).collect();
    changed.sort_by_key(|(day, _)| std::cmp::Reverse(*day));
    changed
}

fn waivers(front: &StepFile) -> Vec<Waiver> {
    let entries = front.waive.iter().flat_map(|table| &table.value.0);
    entries
        .map(|(rule, reason)| Waiver { rule: rule.value.0.clone(), reason: reason.clone(), place: rule.place })
        .collect()
}
