//! The picture of the model after a step, drawn by the program.

use crate::colour::{HueWord, hue_word};
use crate::page::parts::address::{Address, relative};
use crate::page::parts::picture::PictureView;
use crate::page::{Desk, Page};
use crate::render::{Cut, Studio};
use crate::theme::Words;
use crate::trade::Zone;
use crate::work::WorkedScheme;

/// Whether the steps of a scheme can be drawn.
pub(in crate::page) fn can_be(worked: &WorkedScheme) -> bool {
    worked.shape.is_some() && !worked.looks.is_empty()
}

/// Where the picture after the step at a position of a scheme stands.
pub(in crate::page) fn address(worked: &WorkedScheme, at: usize, cut: Cut) -> String {
    let stem = worked.scheme.steps.get(at).map_or("", |step| step.stem.as_str());
    Address::drawn(&worked.scheme.slug, stem, cut == Cut::Small)
}

/// What the picture after the step at a position of a scheme is known by, in all runs.
pub(in crate::page) fn mark(worked: &WorkedScheme, at: usize) -> Option<String> {
    let (look, shape) = worked.looks.get(at).zip(worked.shape.as_ref())?;
    Some(Studio::mark(shape, worked.scheme.model.view, &look.areas, &look.rest))
}

/// The file of one size of a picture.
pub(in crate::page) fn file(desk: Desk<'_>, worked: &WorkedScheme, at: usize, cut: Cut) -> Page {
    let look = worked.looks.get(at).zip(worked.shape.as_ref());
    let drawn =
        look.and_then(|(look, shape)| desk.studio.picture(shape, worked.scheme.model.view, &look.areas, &look.rest));
    let bytes = drawn.map(|drawn| drawn.bytes(cut).to_vec()).unwrap_or_default();
    Page::finished(address(worked, at, cut), bytes)
}

/// The picture after the step at a position of a scheme, on the page at `from`.
pub(in crate::page) fn after(desk: Desk<'_>, worked: &WorkedScheme, from: &str, at: usize) -> Option<PictureView> {
    let number = worked.scheme.steps.get(at)?.number.to_string();
    let changed = changed(worked, at);
    let areas = in_words(worked, at, desk.words);
    let alt = if changed.is_empty() {
        desk.words.filled("drawn.same", &[("number", &number), ("areas", &areas)])
    } else {
        desk.words.filled("drawn.after", &[("number", &number), ("areas", &areas), ("changed", &changed)])
    };
    view(worked, from, at, alt)
}

/// The picture of the finished model, on the page at `from`.
pub(in crate::page) fn finished(desk: Desk<'_>, worked: &WorkedScheme, from: &str) -> Option<PictureView> {
    let at = worked.looks.len().checked_sub(1)?;
    let alt = desk.words.filled("drawn.finished", &[("areas", &in_words(worked, at, desk.words))]);
    view(worked, from, at, alt)
}

/// Where the picture of the finished model stands, if it can be drawn.
pub(in crate::page) fn last(worked: &WorkedScheme) -> Option<String> {
    let at = worked.looks.len().checked_sub(1).filter(|_| can_be(worked))?;
    Some(address(worked, at, Cut::Large))
}

fn view(worked: &WorkedScheme, from: &str, at: usize, alt: String) -> Option<PictureView> {
    let shape = worked.shape.as_ref().filter(|_| at < worked.looks.len())?;
    let size = |cut| Studio::size(shape, worked.scheme.model.view, cut);
    let ((width, height), (small, _)) = (size(Cut::Large)?, size(Cut::Small)?);
    let [small_href, href] = Cut::ALL.map(|cut| relative(from, &address(worked, at, cut)));
    let srcset = format!("{small_href} {small}w, {href} {width}w");
    Some(PictureView { src: href, srcset, alt, caption: None, width, height })
}

/// The titles of the areas that a step changes.
fn changed(worked: &WorkedScheme, at: usize) -> String {
    let changed = worked.looks.get(at).map(|look| look.changed.as_slice()).unwrap_or_default();
    let titles: Vec<&str> =
        changed.iter().filter_map(|area| worked.scheme.areas.get(*area)).map(|area| area.title.as_str()).collect();
    titles.join(", ")
}

/// Every area with the word for its colour after a step.
fn in_words(worked: &WorkedScheme, at: usize, words: &Words) -> String {
    let look = worked.looks.get(at);
    let areas = worked.scheme.areas.iter().enumerate().map(|(area, known)| {
        let look = look.and_then(|look| look.areas.get(area));
        let colour = match look {
            Some(look) if look.masked => words.filled("drawn.masked", &[]),
            Some(look) if look.unknown => words.filled("colour.not-known", &[]),
            Some(look) => colour_in_words(hue_word(look.zones[Zone::Faces as usize].colour), words),
            None => String::new(),
        };
        words.filled("drawn.area", &[("area", &known.title), ("colour", &colour)])
    });
    areas.collect::<Vec<_>>().join(", ")
}

/// A colour as one says it.
fn colour_in_words(word: HueWord, words: &Words) -> String {
    let hue = words.filled(&format!("hue.{}", word.hue), &[]);
    match word.tone {
        Some(tone) => words.filled(&format!("hue.{tone}"), &[("hue", &hue)]),
        None => hue,
    }
}
