//! Schemes: areas, shares, the introduction, and the steps in their order.

use std::sync::Arc;

use unicode_normalization::UnicodeNormalization;

use super::context::Context;
use super::{ResolveDesk, links, mixes, photos, shapes, steps, value, versions, whole_areas, words_of};
use crate::guide::library::{Library, tag_slug};
use crate::guide::{Area, Model, Pot, Scheme, Step, Tag, Version, Zones, checks};
use crate::measure::Share;
use crate::report::{Files, Finding, Group, Level, Place, Placed, wording};
use crate::source::SchemeSource;
use crate::source::file::{ModelEntry, SchemeFile, VariantEntry, ZonesEntry};

/// One scheme with its steps.
pub(super) fn resolve(
    files: &Files,
    library: &Library,
    scheme: &SchemeSource,
    read_whole: bool,
    desk: &mut ResolveDesk,
) -> Scheme {
    let file = scheme.scheme.file;
    let front = &scheme.scheme.front;
    let context = Context { files, library, file };
    let areas = areas(&context, front, desk);
    let top = Place::top_of(file);
    if scheme.steps.is_empty() {
        let message = "this scheme has no steps";
        desk.tell(Finding::new(&checks::NO_STEPS, top, message, "add files such as 10-wash.md beside scheme.md"));
    }
    let variant = variant(scheme);
    let (photo, alt) = variant.map_or((&front.photo, &front.alt), |variant| (&variant.photo, &variant.alt));
    let photo = photos::resolve(&context, photos::AFTER, (photo.as_ref(), alt.as_ref()), desk);
    let before = photos::resolve(&context, photos::BEFORE, (front.before.as_ref(), front.before_alt.as_ref()), desk);
    let intro = steps::within(scheme, links::resolve(&context, scheme.scheme.body_start, desk));
    let model = model(&context, front.model.as_ref(), &areas, desk);
    let own = mixes::pots(front.pots.as_ref(), library, desk);
    mixes::check_apart(&own, library, desk);
    let swaps = variant.and_then(|variant| variant.instead.as_ref()).map(|table| &table.value);
    let mut steps = steps::resolve(files, library, scheme, (&areas, &own, swaps), !read_whole, desk);
    whole_areas::fill(&mut steps, &areas);
    let title = value(front.title.as_ref()).unwrap_or_else(|| words_of(folder(scheme)));
    let version = versions::of(scheme, &title, &library.names.language);
    let pots = pots(&steps);
    Scheme {
        slug: scheme.slug.clone(),
        title: version.as_ref().map_or_else(|| title.clone(), Version::title),
        version,
        left_out: scheme.left_out.clone(),
        finished: front.finished.as_ref().is_some_and(|flag| flag.value.0),
        summary: variant.and_then(|variant| value(variant.summary.as_ref())).or(value(front.summary.as_ref())),
        model,
        areas,
        pots,
        zones: zones(front.zones.as_ref(), desk),
        zones_place: front.zones.as_ref().map(|zones| zones.place),
        photo,
        before,
        video: value(front.video.as_ref()),
        tags: tags(front, library, desk),
        level: value(front.level.as_ref()),
        credits: value(front.credits.as_ref()).unwrap_or_default(),
        written: value(front.written.as_ref()),
        group: value(front.group.as_ref()),
        order: value(front.order.as_ref()).map(|order| order.0),
        intro,
        steps,
        linked_files: std::mem::take(&mut desk.linked_files),
        whole: read_whole && is_whole(library, scheme, desk),
        file,
        place: front.title.as_ref().map_or(top, |title| title.place),
        source: files.shared_text(file),
    }
}

/// The name of the folder that a scheme or a version of it is made from.
pub(super) fn folder(scheme: &SchemeSource) -> &str {
    &scheme.version.of
}

/// What the author says of the variant that a version is.
fn variant(scheme: &SchemeSource) -> Option<&VariantEntry> {
    let id = scheme.version.variant.as_ref()?;
    let mut table = scheme.scheme.front.variants.iter().flat_map(|table| &table.value.0);
    table.find(|(known, _)| known.value.0 == *id).map(|(_, variant)| variant)
}

/// The pots that the steps use, in the order in which they do.
fn pots(steps: &[Step]) -> Vec<Arc<Pot>> {
    let mut used: Vec<Arc<Pot>> = Vec::new();
    for poured in steps.iter().flat_map(|step| &step.mix.pots) {
        if !used.iter().any(|known| known.id == poured.pot.id) {
            used.push(Arc::clone(&poured.pot));
        }
    }
    used
}

/// Whether nothing of a scheme that could be read was lost while it was looked up.
fn is_whole(library: &Library, scheme: &SchemeSource, desk: &ResolveDesk) -> bool {
    let lost = |finding: &Finding| finding.level() == Level::Error && finding.check.group != Group::Links;
    let is_unread = |path: &str| library.names.is_unread(path);
    !desk.lost
        && !desk.findings.iter().any(lost)
        && !is_unread(&format!("schemes/{}", folder(scheme)))
        && !is_unread("paints")
        // A file that stands for a sequence with a step that can't be read has lost that step, or all of them.
        && (scheme.uses.is_empty() || !is_unread("sequences"))
}

fn areas(context: &Context<'_>, front: &SchemeFile, desk: &mut ResolveDesk) -> Vec<Area> {
    let Some(table) = &front.areas else { return Vec::new() };
    let mut areas = Vec::new();
    let has_mesh = front.model.as_ref().is_some_and(|model| model.value.mesh.is_some())
        || table.value.0.iter().any(|(_, entry)| entry.mesh.is_some());
    for (id, entry) in &table.value.0 {
        if id.value.0 == "all" {
            let message = "'all' already means every area";
            desk.tell(Finding::new(&checks::UNKNOWN_AREA, id.place, message, "give this area another id"));
            continue;
        }
        if !entry.share_written && !has_mesh {
            let message = format!("the area {} has no share", wording::quoted(&id.value.0));
            let mend =
                "write how much of the model it is, as in 'share: 40%', or give the model a mesh to measure it from";
            desk.tell(Finding::new(&checks::AREA_SHARES, id.place, message, mend));
        }
        areas.push(Area {
            id: id.value.0.clone(),
            title: value(entry.title.as_ref()).unwrap_or_else(|| words_of(&id.value.0)),
            share: value(entry.share.as_ref()),
            shows: value(entry.shows.as_ref()),
            share_left: !entry.share_written,
            shape: shapes::of_area(context, entry, desk),
            place: id.place,
        });
    }
    let shares: Option<Vec<Share>> = areas.iter().map(|area| area.share).collect();
    if let Some(sum) = shares.map(|shares| shares.into_iter().sum::<Share>()).filter(|sum| *sum != Share::percent(100))
    {
        let message = format!("the shares of the areas add up to {:.4} %", sum.as_percent()).replace(".0000", "");
        desk.tell(Finding::new(&checks::AREA_SHARES, table.place, message, "make them add up to 100 %"));
    }
    areas
}

fn zones(entry: Option<&Placed<ZonesEntry>>, desk: &mut ResolveDesk) -> Zones {
    let known = entry.and_then(|entry| {
        Some((
            entry.place,
            Zones {
                recesses: value(entry.recesses.as_ref())?,
                faces: value(entry.faces.as_ref())?,
                edges: value(entry.edges.as_ref())?,
            },
        ))
    });
    let Some((place, zones)) = known else { return Zones::default() };
    let sum: Share = [zones.recesses, zones.faces, zones.edges].into_iter().sum();
    if sum != Share::percent(100) {
        let message = format!("recesses, faces and edges add up to {:.4} %", sum.as_percent()).replace(".0000", "");
        desk.tell(Finding::new(&checks::ZONE_SHARES, place, message, "make them add up to 100 %"));
        return Zones::default();
    }
    zones
}

fn model(context: &Context<'_>, entry: Option<&Placed<ModelEntry>>, areas: &[Area], desk: &mut ResolveDesk) -> Model {
    let Some(Placed { value: entry, place }) = entry else { return shapes::model_of_areas(context, areas, desk) };
    let place = *place;
    let mesh = shapes::mesh(context, entry, areas, desk);
    Model {
        name: value(entry.name.as_ref()),
        scale: value(entry.scale.as_ref()),
        material: value(entry.material.as_ref()),
        material_place: entry.material.as_ref().map_or(place, |material| material.place),
        surface: entry.surface.as_ref().and_then(|surface| surface.value.0),
        surface_unread: entry.surface.as_ref().is_some_and(|surface| surface.value.0.is_none()),
        bare: shapes::bare(context, entry, mesh.is_some(), desk),
        mesh,
        view: shapes::view(entry.view.as_ref(), areas, desk),
        base: value(entry.base.as_ref()),
        kind: value(entry.kind.as_ref()),
        place,
    }
}

/// A word as readers see it: composed, in small letters.
fn folded(word: &str) -> String {
    word.to_lowercase().nfc().collect()
}

/// The tags, each once, in the author's order.
fn tags(front: &SchemeFile, library: &Library, desk: &mut ResolveDesk) -> Vec<Tag> {
    let mut tags: Vec<Tag> = Vec::new();
    let Some(names) = &front.tags else { return tags };
    for name in &names.value {
        let slug = tag_slug(name);
        if slug.is_empty() {
            let message = format!("the tag {} has no letter and no digit", wording::quoted(name));
            desk.tell(Finding::new(&checks::TAG, names.place, message, "write a word that readers would look for"));
            continue;
        }
        // Other capitals and accents stored otherwise are the same word to readers.
        let first = library.names.tag_words.get(&slug).filter(|first| folded(first) != folded(name));
        if let Some(first) = first {
            let message = format!("the tags {} and {} have one page", wording::quoted(name), wording::quoted(first));
            desk.tell(Finding::new(&checks::TAGS_MEET, names.place, message, "write both alike, or in other words"));
        }
        if !tags.iter().any(|known| known.slug == slug) {
            tags.push(Tag { slug, name: name.clone() });
        }
    }
    tags
}
