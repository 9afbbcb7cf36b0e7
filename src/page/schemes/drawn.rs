//! The picture of the model after a step, drawn by the program.

use booth::{AreaLook, Patch, Tone};
use image::RgbImage;
use serde::Serialize;

use crate::colour::{HueWord, hue_word};
use crate::page::parts::address::{Address, relative};
use crate::page::parts::picture::PictureView;
use crate::page::{Desk, Page};
use crate::picture::opaque;
use crate::render::{Cut, Sitter, Studio};
use crate::tell::called;
use crate::theme::Words;
use crate::trade::{Side, Zone};
use crate::work::{ModelLook, WorkedScheme};

/// Whether the steps of a scheme can be drawn.
pub(in crate::page) fn can_be(worked: &WorkedScheme) -> bool {
    worked.sitter().is_some()
}

/// The sides from which the finished model is drawn besides the scheme's own view, in the order of a turn.
pub(in crate::page) fn turns(worked: &WorkedScheme) -> impl Iterator<Item = Side> {
    // Where the steps show one area alone, the whole model is drawn from their side too.
    let own = worked.scheme.model.view.near.is_none().then(|| own_side(worked));
    let can_turn = worked.sitter().is_some_and(|sitter| sitter.turned(FIRST).is_some());
    around(own_side(worked)).filter(move |side| can_turn && Some(*side) != own)
}

/// From where a model is seen where nobody says.
const FIRST: Side = Side::FrontLeft;

fn own_side(worked: &WorkedScheme) -> Side {
    worked.scheme.model.view.side.unwrap_or(FIRST)
}

/// All sides, one after the other, beginning with one.
fn around(first: Side) -> impl Iterator<Item = Side> {
    let at = Side::ALL.iter().position(|side| *side == first).unwrap_or_default();
    Side::ALL.iter().cycle().skip(at).take(Side::ALL.len()).copied()
}

/// Where the picture of the finished model from a side stands.
pub(in crate::page) fn turned_address(worked: &WorkedScheme, side: Side) -> String {
    Address::drawn(&worked.scheme.slug, &format!("from-{side}"), size_word(Cut::Large))
}

/// What the picture of the finished model from a side is known by, in all runs.
pub(in crate::page) fn turned_mark(worked: &WorkedScheme, side: Side) -> Option<String> {
    let look = worked.looks.last()?.at_rest();
    Some(Studio::mark(worked.sitter()?.turned(side)?, &look.areas, &look.rest))
}

/// The file of the picture of the finished model from a side.
pub(in crate::page) fn turned_file(desk: Desk<'_>, worked: &WorkedScheme, side: Side) -> Page {
    let sitter = worked.sitter().and_then(|sitter| sitter.turned(side)).zip(worked.looks.last());
    let drawn = sitter.and_then(|(sitter, look)| {
        let look = look.at_rest();
        desk.studio.picture(sitter, &look.areas, &look.rest)
    });
    let bytes = drawn.map(|drawn| drawn.bytes(Cut::Large).to_vec()).unwrap_or_default();
    Page::finished(turned_address(worked, side), bytes)
}

/// The finished model from one side.
#[derive(Debug, Serialize)]
pub struct TurnedView {
    /// The side; words below `side`.
    pub side: &'static str,
    /// The picture.
    pub picture: PictureView,
}

/// The finished model from all sides, on the page at `from`; empty where it can't be turned.
pub(in crate::page) fn turned(desk: Desk<'_>, worked: &WorkedScheme, from: &str) -> Vec<TurnedView> {
    let drawn: Vec<Side> = turns(worked).collect();
    if drawn.is_empty() {
        return Vec::new();
    }
    let one = |side: Side| {
        let picture = if drawn.contains(&side) {
            let seen = desk.words.filled(&format!("side.{side}"), &[]);
            let alt = desk.words.filled("drawn.turned", &[("side", &seen)]);
            let (width, height) = Studio::size(worked.sitter()?.turned(side)?, Cut::Large)?;
            let src = relative(from, &turned_address(worked, side));
            Some(PictureView { src, srcset: String::new(), alt, caption: None, width, height })
        } else {
            finished(desk, worked, from)
        };
        Some(TurnedView { side: side.name(), picture: picture? })
    };
    around(own_side(worked)).filter_map(one).collect()
}

/// Where the picture after the step at a position of a scheme stands.
pub(in crate::page) fn address(worked: &WorkedScheme, at: usize, cut: Cut) -> String {
    let stem = worked.scheme.steps.get(at).map_or("", |step| step.stem.as_str());
    Address::drawn(&worked.scheme.slug, stem, size_word(cut))
}

/// What the name of a file says about its size.
fn size_word(cut: Cut) -> &'static str {
    match cut {
        Cut::Tiny => "-160",
        Cut::Small => "-480",
        Cut::Large => "",
    }
}

/// What the picture after the step at a position of a scheme is known by, in all runs.
pub(in crate::page) fn mark(worked: &WorkedScheme, at: usize) -> Option<String> {
    let (look, sitter) = worked.looks.get(at).zip(worked.sitter())?;
    Some(Studio::mark(sitter, &look.areas, &look.rest))
}

/// The file of one size of a picture.
pub(in crate::page) fn file(desk: Desk<'_>, worked: &WorkedScheme, at: usize, cut: Cut) -> Page {
    let look = worked.looks.get(at).zip(worked.sitter());
    let drawn = look.and_then(|(look, sitter)| desk.studio.picture(sitter, &look.areas, &look.rest));
    let bytes = drawn.map(|drawn| drawn.bytes(cut).to_vec()).unwrap_or_default();
    Page::finished(address(worked, at, cut), bytes)
}

/// The picture after the step at a position of a scheme, on the page at `from`.
pub(in crate::page) fn after(desk: Desk<'_>, worked: &WorkedScheme, from: &str, at: usize) -> Option<PictureView> {
    let number = worked.scheme.steps.get(at)?.number.to_string();
    let changed = all_changes(
        worked,
        at,
        desk.words,
        worked.looks.get(at).map(|look| painted(worked, at, &look.changed, desk.words)).unwrap_or_default(),
    );
    let areas = in_words(worked, at, desk.words);
    let alt = if changed.is_empty() {
        desk.words.filled("drawn.same", &[("number", &number), ("areas", &areas)])
    } else {
        desk.words.filled("drawn.after", &[("number", &number), ("areas", &areas), ("changed", &changed)])
    };
    view(worked.sitter()?, from, |cut| address(worked, at, cut), alt)
}

/// The picture of the finished model, on the page at `from`.
pub(in crate::page) fn finished(desk: Desk<'_>, worked: &WorkedScheme, from: &str) -> Option<PictureView> {
    view(worked.sitter()?, from, |cut| finished_address(worked, cut), finished_in_words(worked, desk.words)?)
}

/// What the picture of the finished model shows.
pub(in crate::page) fn finished_in_words(worked: &WorkedScheme, words: &Words) -> Option<String> {
    let at = worked.looks.len().checked_sub(1)?;
    Some(words.filled("drawn.finished", &[("areas", &in_words(worked, at, words))]))
}

/// Where the picture of the finished model stands.
pub(in crate::page) fn finished_address(worked: &WorkedScheme, cut: Cut) -> String {
    Address::drawn(&worked.scheme.slug, "finished", size_word(cut))
}

/// What the picture of the finished model is known by, in all runs.
pub(in crate::page) fn finished_mark(worked: &WorkedScheme) -> Option<String> {
    let look = worked.looks.last()?.at_rest();
    Some(Studio::mark(worked.sitter()?, &look.areas, &look.rest))
}

/// The picture of the finished model, in one size.
fn finished_bytes(studio: &Studio, worked: &WorkedScheme, cut: Cut) -> Option<Vec<u8>> {
    let look = worked.looks.last()?.at_rest();
    Some(studio.picture(worked.sitter()?, &look.areas, &look.rest)?.bytes(cut).to_vec())
}

/// The file of one size of the picture of the finished model.
pub(in crate::page) fn finished_file(desk: Desk<'_>, worked: &WorkedScheme, cut: Cut) -> Page {
    Page::finished(finished_address(worked, cut), finished_bytes(desk.studio, worked, cut).unwrap_or_default())
}

/// The finished model for a printed card: on white, each area with a line around it.
pub(in crate::page) fn on_paper(studio: &Studio, worked: &WorkedScheme) -> Option<RgbImage> {
    let look = worked.looks.last()?.at_rest();
    studio.on_paper(worked.sitter()?, &look.areas, &look.rest)
}

/// The finished model for the picture that is shown beside a link.
pub(in crate::page) fn for_links(studio: &Studio, worked: &WorkedScheme) -> Option<RgbImage> {
    opaque(&finished_bytes(studio, worked, Cut::Large)?, [u8::MAX; 3])
}

/// Where the picture of the finished model stands, if it can be drawn.
pub(in crate::page) fn last(worked: &WorkedScheme) -> Option<String> {
    can_be(worked).then(|| finished_address(worked, Cut::Large))
}

fn view(sitter: Sitter<'_>, from: &str, address: impl Fn(Cut) -> String, alt: String) -> Option<PictureView> {
    let size = |cut| Studio::size(sitter, cut);
    let ((width, height), (small, _)) = (size(Cut::Large)?, size(Cut::Small)?);
    let [small_href, href] = Cut::FOR_PAGES.map(|cut| relative(from, &address(cut)));
    let srcset = format!("{small_href} {small}w, {href} {width}w");
    Some(PictureView { src: href, srcset, alt, caption: None, width, height })
}

/// The tiny picture of a step for the strip, on the page at `from`: its words say what the step changes, and into what.
pub(in crate::page) fn tiny(worked: &WorkedScheme, words: &Words, from: &str, at: usize) -> Option<PictureView> {
    let (width, height) = Studio::size(worked.sitter()?, Cut::Tiny)?;
    let look = worked.looks.get(at)?;
    // Where the word for the colour stays what it was, the paint tells what is new.
    let said = list(worked, &look.changed, Some(look), words);
    let before = at.checked_sub(1).map(|at| list(worked, &look.changed, worked.looks.get(at), words));
    let said = if before.as_ref() == Some(&said) { painted(worked, at, &look.changed, words) } else { said };
    let changed = all_changes(worked, at, words, said);
    let alt = if changed.is_empty() {
        words.filled("drawn.none", &[])
    } else {
        words.filled("drawn.changes", &[("changed", &changed)])
    };
    let src = relative(from, &address(worked, at, Cut::Tiny));
    Some(PictureView { src, srcset: String::new(), alt, caption: None, width, height })
}

/// The titles of some areas.
fn titles(worked: &WorkedScheme, areas: &[usize]) -> String {
    let known = areas.iter().filter_map(|area| worked.scheme.areas.get(*area));
    known.map(|area| area.title.as_str()).collect::<Vec<_>>().join(", ")
}

/// The titles of the areas that a step changes, with what it lays: words for colours are too few to tell a glaze from what
/// is under it.
fn painted(worked: &WorkedScheme, at: usize, areas: &[usize], words: &Words) -> String {
    let area = titles(worked, areas);
    let paint = worked.scheme.steps.get(at).and_then(|step| called::in_line(&step.mix, words));
    match paint.filter(|_| !area.is_empty()) {
        Some(paint) => words.filled("drawn.painted", &[("area", &area), ("paint", &paint)]),
        None => area,
    }
}

/// What a step changes, with details that it paints, and the base where the step is about that.
fn all_changes(worked: &WorkedScheme, at: usize, words: &Words, changed: String) -> String {
    let mut all = vec![changed];
    let look = worked.looks.get(at);
    let detailed = look.map(|look| titles(worked, &look.detailed)).unwrap_or_default();
    if !detailed.is_empty() {
        all.push(words.filled("drawn.details", &[("areas", &detailed)]));
    }
    let about_base = worked.scheme.steps.get(at).is_some_and(crate::guide::Step::is_about_base);
    if about_base && look.is_some_and(|look| look.rest.lifted) {
        all.push(words.filled("drawn.base", &[]));
    }
    all.retain(|one| !one.is_empty());
    all.join(", ")
}

/// Every area with the word for its colour after a step.
fn in_words(worked: &WorkedScheme, at: usize, words: &Words) -> String {
    let all: Vec<usize> = (0..worked.scheme.areas.len()).collect();
    list(worked, &all, worked.looks.get(at), words)
}

/// Some areas with the words for their colours.
fn list(worked: &WorkedScheme, areas: &[usize], look: Option<&ModelLook>, words: &Words) -> String {
    let one = |area: &usize| {
        let known = worked.scheme.areas.get(*area)?;
        let colour = match look.and_then(|look| look.areas.get(*area)) {
            Some(look) if look.masked => words.filled("drawn.masked", &[]),
            Some(look) if look.unknown => words.filled("colour.not-known", &[]),
            Some(look) => patched(look, words),
            None => String::new(),
        };
        Some(words.filled("drawn.area", &[("area", &known.title), ("colour", &colour)]))
    };
    areas.iter().filter_map(one).collect::<Vec<_>>().join(", ")
}

/// The colours of an area, that of every pattern on it too.
fn patched(look: &AreaLook, words: &Words) -> String {
    let face = |zones: &[Tone; 3]| colour_in_words(hue_word(zones[Zone::Faces as usize].colour), words);
    let patch = |patch: &Patch| if patch.masked { words.filled("drawn.masked", &[]) } else { face(&patch.zones) };
    let mut all = vec![face(&look.zones)];
    all.extend(look.patches.iter().map(patch));
    all.dedup();
    all.join(" / ")
}

/// A colour as one says it.
fn colour_in_words(word: HueWord, words: &Words) -> String {
    let hue = words.filled(&format!("hue.{}", word.hue), &[]);
    match word.tone {
        Some(tone) => words.filled(&format!("hue.{tone}"), &[("hue", &hue)]),
        None => hue,
    }
}
