//! From the source to the guide: names are looked up, defaults filled in.

mod addresses;
mod armies;
mod borrowed;
mod context;
mod desk;
mod fonts;
mod groups;
mod impossible_swatches;
mod links;
mod mixes;
mod near_links;
mod own_cautions;
mod paints;
mod photos;
mod schemes;
mod shapes;
mod steps;
mod swatches;
mod versions;
mod whole_areas;

use std::collections::BTreeSet;
use std::sync::Arc;

use rayon::prelude::*;

use super::checks::HOUSE_ORDERS;
use super::kept::{self, KeptGuide, KeptScheme};
use super::library::{Library, Names, path_in_content};
use super::{BenchFigure, Guide, HouseOrder, Page, Room, Scheme, Schemes, Tool};
use crate::measure::{Millilitres, Number};
use crate::report::{FileId, Files, Finding, Group, Level, Place, Placed};
use crate::source::file::{GuideFile, HouseOrderEntry, PageFile, ToolEntry};
use crate::source::{Document, Id, Named, SchemeSource, Source};
use crate::trade::{Paper, ToolKind};
use context::Context;
use desk::{ResolveDesk, value, words_of};

pub(crate) use whole_areas::SPOT_PERCENT;

/// Looks up every name of a source and fills in what is left out. What can't be resolved is reported and left out. The
/// steps of schemes are taken out of the source on the way.
pub fn resolve(source: &mut Source) -> (Guide, Vec<Finding>) {
    resolve_again(source, &mut KeptGuide::for_one_look())
}

/// Resolves a source that may have been resolved before: only schemes are looked at again whose files changed, or
/// whose paints or tools did, or all of them where names came or went. Where nothing is kept for another time, the source
/// has afterwards no steps any more but those of schemes among whose steps a unit of an army chooses.
pub fn resolve_again(source: &mut Source, kept: &mut KeptGuide) -> (Guide, Vec<Finding>) {
    let mut desk = ResolveDesk::default();
    let file = source.guide.as_deref().cloned().unwrap_or_default();
    let drop = value(file.drop.as_ref());
    let mut paints = paints::resolve(source, drop, &mut desk);
    kept::unchanged(&mut paints, &kept.paints, |paint| &paint.id);
    let mut tools = resolve_tools(source);
    kept::unchanged(&mut tools, &kept.tools, |tool| &tool.id);
    let mut library = library(source, &paints, &tools, kept);
    paints::check_references(source, &library, &mut desk);
    let mut pots = mixes::pots(file.pots.as_ref(), &library, &mut desk);
    kept::unchanged(&mut pots, &kept.pots, |pot| &pot.id);
    library.put_pots(&pots);

    let resolved = resolve_schemes(source, &library, kept);
    let source = &*source;
    let schemes: Vec<Arc<Scheme>> = resolved.iter().map(|kept| Arc::clone(&kept.scheme)).collect();
    for scheme in &resolved {
        desk.findings.extend(scheme.findings.iter().cloned());
        desk.linked_files.extend(scheme.scheme.linked_files.iter().cloned());
    }
    kept.schemes = resolved.into_iter().map(|scheme| (scheme.scheme.slug.clone(), scheme)).collect();
    kept.paints = paints.iter().map(|paint| (paint.id.clone(), Arc::clone(paint))).collect();
    mixes::check_used(&pots, source, &schemes, &mut desk);
    groups::check(file.groups.as_ref(), &schemes, &library, &mut desk);
    kept.pots = pots.iter().map(|pot| (pot.id.clone(), Arc::clone(pot))).collect();
    kept.tools = tools.iter().map(|tool| (tool.id.clone(), Arc::clone(tool))).collect();
    add_unlisted_tools(&mut tools, &schemes);
    let files = &source.files;
    let pages = source.pages.iter().map(|page| resolve_page(files, &library, page, &mut desk)).collect();
    let sequences = source.sequences.iter().map(|sequence| {
        let context = Context { files, library: &library, file: sequence.document.file };
        borrowed::sequence(&context, sequence, &mut desk)
    });
    let sequences = sequences.collect();
    let armies =
        source.armies.iter().map(|army| armies::resolve(army, (source, &schemes), &library, &mut desk)).collect();
    desk.findings.extend(too_many_house_orders(&file));
    let context = Context { files, library: &library, file: source.guide_file };
    let fonts = fonts::named(&context, file.fonts.as_ref(), &mut desk);
    let welcome = file.welcome.as_ref().map(|text| links::resolve_text(&context, text, &mut desk));
    let guide = guide(
        file,
        Place::top_of(source.guide_file),
        drop,
        Parts {
            paints,
            tools,
            schemes: Schemes::new(schemes, source.has_all_schemes()),
            sequences,
            armies,
            pages,
            fonts,
            welcome,
            linked_files: desk.linked_files,
        },
    );
    (guide, desk.findings)
}

fn library(source: &Source, paints: &[Arc<super::Paint>], tools: &[Arc<Tool>], kept: &mut KeptGuide) -> Library {
    let mut names = Names::of(source);
    names.paints = paints.iter().map(|paint| paint.id.clone()).collect();
    names.tools = tools.iter().map(|tool| tool.id.clone()).collect();
    let of_text = |(file, start)| {
        let path = path_in_content(source.files.path(file));
        (path, kept.anchors(&source.files, file, start))
    };
    let anchors = texts(source).map(of_text).collect();
    Library::new(kept.names(names), paints, tools, anchors)
}

/// The files that hold texts, and the byte where each text begins.
fn texts(source: &Source) -> impl Iterator<Item = (FileId, usize)> {
    let of_scheme = |scheme: &SchemeSource| {
        // Of a sequence's steps the file that stands for them; their own stand with the sequence.
        let steps = scheme.steps.iter().filter_map(|step| match &step.by {
            None => Some((step.document.file, step.document.body_start)),
            Some(by) if by.first => Some((by.document.file, by.document.body_start)),
            Some(_) => None,
        });
        std::iter::once((scheme.scheme.file, scheme.scheme.body_start)).chain(steps).collect::<Vec<_>>()
    };
    let of_sequence = |sequence: &crate::source::SequenceSource| {
        let steps = sequence.steps.iter().map(|step| (step.document.file, step.document.body_start));
        std::iter::once((sequence.document.file, sequence.document.body_start)).chain(steps).collect::<Vec<_>>()
    };
    let pages = source.pages.iter().map(|page| (page.file, page.record.body_start));
    let pages = source.sequences.iter().flat_map(of_sequence).chain(pages);
    source.schemes.iter().flat_map(of_scheme).chain(pages)
}

/// Every scheme, in parallel; one that still holds is taken as it is.
///
/// What was read of the steps is as large as what comes of them: unless it is kept, it is let go with each scheme, so that
/// nobody ever has both of all schemes. Where a unit of an army chooses among the steps, they stay for it.
fn resolve_schemes(source: &mut Source, library: &Library, kept: &KeptGuide) -> Vec<Arc<KeptScheme>> {
    let lost = |finding: &&Finding| finding.level() == Level::Error && finding.check.group != Group::Links;
    let faulty: BTreeSet<FileId> = source.findings.iter().filter(lost).map(|finding| finding.place.file).collect();
    let units = source.armies.iter().flat_map(|army| army.record.units.iter().flat_map(|units| &units.value));
    let choosing = units.filter(|unit| !unit.value.is_plain()).filter_map(|unit| unit.value.scheme.as_ref());
    let in_armies: BTreeSet<&str> = choosing.map(|scheme| scheme.value.0.as_str()).collect();
    let files = &source.files;
    let resolved = source.schemes.par_iter_mut().map(|scheme| {
        let steps = scheme.steps.iter().map(|step| step.document.file);
        let mut own = steps.chain(scheme.uses.iter().copied()).chain([scheme.scheme.file]);
        let read_whole = faulty.is_empty() || !own.any(|file| faulty.contains(&file));
        let known = kept.schemes.get(&scheme.slug);
        if let Some(known) = known.filter(|known| known.holds(scheme, read_whole, library)) {
            return Arc::clone(known);
        }
        let mut resolved = resolve_scheme(files, library, scheme, read_whole, known.map(|known| &**known));
        if !kept.is_for_one_look() {
            resolved.source = Some(scheme.clone());
        } else if !in_armies.contains(scheme.version.of.as_str()) {
            scheme.steps = Vec::new();
        }
        Arc::new(resolved)
    });
    resolved.collect()
}

/// One scheme; where it comes out as it was, it is the same one.
fn resolve_scheme(
    files: &Files,
    library: &Library,
    source: &SchemeSource,
    read_whole: bool,
    known: Option<&KeptScheme>,
) -> KeptScheme {
    let mut desk = ResolveDesk::default();
    let scheme = schemes::resolve(files, library, source, read_whole, &mut desk);
    desk.findings = desk.findings.into_iter().map(|finding| scheme.with_use(finding)).collect();
    let same = known.map(|known| &known.scheme).filter(|known| ***known == scheme);
    KeptScheme {
        source: None,
        read_whole,
        names: Arc::clone(&library.names),
        asked: desk.asked,
        scheme: same.map_or_else(|| Arc::new(scheme), Arc::clone),
        findings: desk.findings,
    }
}

struct Parts {
    paints: Vec<Arc<super::Paint>>,
    tools: Vec<Arc<Tool>>,
    schemes: Schemes,
    sequences: Vec<super::Sequence>,
    armies: Vec<super::Army>,
    pages: Vec<Page>,
    fonts: Vec<Placed<String>>,
    welcome: Option<super::Prose>,
    linked_files: BTreeSet<String>,
}

fn guide(file: GuideFile, top: Place, drop: Option<Millilitres>, parts: Parts) -> Guide {
    let text = |placed: Option<Placed<String>>| placed.map(|placed| placed.value);
    let room = file.room.map(|room| room.value).unwrap_or_default();
    Guide {
        title: text(file.title).unwrap_or_default(),
        author: text(file.author).unwrap_or_default(),
        summary: text(file.summary),
        address: file.address.map(|address| address.value.0),
        language_place: file.language.as_ref().map_or(top, |language| language.place),
        theme_place: file.theme.as_ref().map_or(top, |theme| theme.place),
        language: file.language.map_or_else(|| "en".to_owned(), |language| language.value.0),
        currency: file.currency.map(|currency| currency.value.0),
        paper: file.paper.map_or(Paper::A4, |paper| paper.value),
        licence: text(file.licence),
        theme: file.theme.map_or_else(|| "chart".to_owned(), |theme| theme.value.0),
        fonts: parts.fonts,
        drop,
        room: Room { temperature: value(room.temperature.as_ref()), humidity: value(room.humidity.as_ref()) },
        bench: file.bench.map(|bench| bench.value.0.into_iter().map(bench_figure).collect()).unwrap_or_default(),
        raw_html: file.raw_html.is_some_and(|flag| flag.0),
        welcome: parts.welcome,
        groups: file.groups.iter().flat_map(|groups| &groups.value).map(|group| group.value.clone()).collect(),
        house_order: file
            .house_order
            .map(|orders| orders.value.into_iter().take(MOST_HOUSE_ORDERS).filter_map(house_order).collect())
            .unwrap_or_default(),
        paints: parts.paints,
        tools: parts.tools,
        schemes: parts.schemes,
        sequences: parts.sequences,
        armies: parts.armies,
        pages: parts.pages,
        linked_files: parts.linked_files,
    }
}

fn bench_figure((key, number): (Placed<Id>, Number)) -> BenchFigure {
    BenchFigure { key: key.value.0, value: number.0, place: key.place }
}

/// So many rules of its own a guide may have: each costs time on every area and step.
const MOST_HOUSE_ORDERS: usize = 50;

/// Tells of more ordering rules than are looked at.
fn too_many_house_orders(file: &GuideFile) -> Option<Finding> {
    let orders = file.house_order.as_ref()?;
    let message = format!("there are {} rules, and only the first {MOST_HOUSE_ORDERS} hold", orders.value.len());
    let mend = "keep those that are broken in practice; what all painters do is checked anyway";
    let finding = Finding::new(&HOUSE_ORDERS, orders.place, message, mend);
    (orders.value.len() > MOST_HOUSE_ORDERS).then_some(finding)
}

fn house_order(entry: HouseOrderEntry) -> Option<HouseOrder> {
    Some(HouseOrder { first: entry.first?.value, then: entry.then?.value, why: entry.why?.value })
}

fn resolve_tools(source: &Source) -> Vec<Arc<Tool>> {
    let listed = source.tools.iter().filter_map(|file| file.tools.as_ref()).flat_map(|tools| &tools.value.0);
    listed
        .map(|(id, ToolEntry { name, kind, per_model, pack, price, note })| {
            Arc::new(Tool {
                id: id.0.clone(),
                name: value(name.as_ref()).unwrap_or_else(|| words_of(&id.0)),
                kind: value(kind.as_ref()).unwrap_or(ToolKind::Tool),
                per_model: value(per_model.as_ref()),
                pack: pack.as_ref().map(|pack| pack.value.0),
                price: value(price.as_ref()),
                note: value(note.as_ref()),
                place: source.marked(id),
                listed: true,
            })
        })
        .collect()
}

/// Tools that only steps name stand behind the listed ones, each once, in the order in which they are first named.
fn add_unlisted_tools(tools: &mut Vec<Arc<Tool>>, schemes: &[Arc<Scheme>]) {
    let mut seen = BTreeSet::new();
    for tool in schemes.iter().flat_map(|scheme| &scheme.steps).flat_map(|step| &step.tools) {
        if !tool.listed && seen.insert(tool.id.as_str()) {
            tools.push(Arc::clone(tool));
        }
    }
}

fn resolve_page(
    files: &Files,
    library: &Library,
    page: &Named<Arc<Document<PageFile>>>,
    desk: &mut ResolveDesk,
) -> Page {
    let front = &page.record.front;
    let context = Context { files, library, file: page.file };
    Page {
        slug: page.slug.clone(),
        title: value(front.title.as_ref()).unwrap_or_else(|| words_of(&page.slug)),
        summary: value(front.summary.as_ref()),
        photo: photos::resolve(&context, photos::AFTER, (front.photo.as_ref(), front.alt.as_ref()), desk),
        body: links::resolve(&context, page.record.body_start, desk),
        file: page.file,
    }
}
