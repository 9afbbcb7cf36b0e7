//! The search page: everything from A to Z for readers without script, and beside it the texts that the script
//! searches.
//!
//! The texts are files of script that hand over a list, because a browser lets no page opened by double click read
//! a file of data. They are loaded when a reader begins to type, in parts of a size that a telephone takes well.

use std::collections::BTreeMap;

use pulldown_cmark::Event;
use serde::Serialize;
use unicode_normalization::UnicodeNormalization;

use super::address::Address;
use super::frame::{Frame, Section};
use super::{Desk, Page, View, relative};
use crate::guide::markdown::parser;
use crate::guide::{Guide, Paint, Prose, Scheme, Step, Thing};
use crate::trade::Stage;

/// Where the page stands.
const PATH: &str = "search.html";

/// The most letters in one part of the texts.
const PART: usize = 500_000;

/// The search page.
#[derive(Debug, Serialize)]
pub struct SearchView {
    /// What stands around it.
    pub frame: Frame,
    /// Schemes, paints, tags and free pages, by their first letter.
    pub letters: Vec<LetterView>,
    /// The stages that are used.
    pub stages: Vec<Entry>,
    /// The files with the texts that the script searches.
    pub parts: Vec<String>,
}

/// Everything that begins with one letter.
#[derive(Debug, Serialize)]
pub struct LetterView {
    /// The letter.
    pub letter: String,
    /// What begins with it, sorted.
    pub entries: Vec<Entry>,
}

/// A part of the texts that are searched.
#[derive(Debug, Serialize)]
pub struct SearchDataView {
    /// Its entries.
    pub entries: Vec<Entry>,
}

/// Something that can be found.
#[derive(Debug, Clone, Serialize)]
pub struct Entry {
    /// What it is; words below `search-kind`.
    pub kind: &'static str,
    /// What it is called; empty for a stage, which the theme has the word for.
    pub title: String,
    /// What it belongs to: a step's scheme, a paint's maker and range.
    pub place: String,
    /// The stage that it is or belongs to; words below `stage`.
    pub stage: Option<&'static str>,
    /// Everything else that is said about it.
    pub text: String,
    /// Its page, from the published folder.
    pub href: String,
}

/// The search page and the texts beside it.
pub(super) fn pages(desk: Desk<'_>) -> Vec<Page> {
    let guide = &desk.worked.guide;
    let listed = listed(guide);
    let stages: Vec<Entry> = stages(guide).collect();
    let steps = guide.schemes.iter().flat_map(|scheme| scheme.steps.iter().map(|step| of_step(scheme, step)));
    let parts = parts(listed.iter().cloned().chain(stages.iter().cloned()).chain(steps));
    let paths: Vec<String> = (1..=parts.len()).map(|number| format!("data/search-{number}.js")).collect();
    let frame = Frame::new(guide, PATH, Section::Search, &guide.title, None);
    let view = SearchView { frame, letters: by_letter(listed), stages, parts: paths.clone() };
    let page = |path: String, view| Page { path, view, must_show: Vec::new() };
    let data = parts.into_iter().map(|entries| View::SearchData(SearchDataView { entries }));
    let mut pages = vec![page(PATH.to_owned(), View::Search(view))];
    pages.extend(paths.into_iter().zip(data).map(|(path, view)| page(path, view)));
    pages
}

/// What the list from A to Z holds. Steps are not on it: they stand under their schemes.
fn listed(guide: &Guide) -> Vec<Entry> {
    let schemes = guide.schemes.iter().map(|scheme| of_scheme(scheme));
    let paints = guide.paints.iter().map(|paint| of_paint(paint));
    let pages = guide.pages.iter().map(|page| {
        let text = [page.summary.clone().unwrap_or_default(), plain(&page.body)].join(" ");
        entry("page", &page.title, &Thing::Page(page.slug.clone()), String::new(), text)
    });
    let mut tags: BTreeMap<&str, Entry> = BTreeMap::new();
    for tag in guide.schemes.iter().flat_map(|scheme| &scheme.tags) {
        let made = || entry("tag", &tag.name, &Thing::Tag(tag.slug.clone()), String::new(), String::new());
        tags.entry(&tag.slug).or_insert_with(made);
    }
    schemes.chain(paints).chain(pages).chain(tags.into_values()).collect()
}

fn entry(kind: &'static str, title: &str, thing: &Thing, place: String, text: String) -> Entry {
    Entry { kind, title: title.to_owned(), place, stage: None, text, href: relative("", &Address::of(thing)) }
}

fn of_scheme(scheme: &Scheme) -> Entry {
    let tags = scheme.tags.iter().map(|tag| tag.name.as_str());
    let areas = scheme.areas.iter().map(|area| area.title.as_str());
    let model = scheme.model.name.iter().chain(&scheme.model.material).map(String::as_str);
    let words: Vec<&str> = scheme.summary.as_deref().into_iter().chain(model).chain(tags).chain(areas).collect();
    let text = format!("{} {}", words.join(" "), plain(&scheme.intro));
    entry("scheme", &scheme.title, &Thing::Scheme(scheme.slug.clone()), String::new(), text)
}

fn of_step(scheme: &Scheme, step: &Step) -> Entry {
    let areas = step.areas.iter().filter_map(|area| scheme.areas.get(*area)).map(|area| area.title.as_str());
    let paints = step.mix.parts.iter().map(|part| part.paint.name.as_str());
    let tools = step.tools.iter().map(|tool| tool.name.as_str());
    let words: Vec<&str> = areas.chain(paints).chain(tools).collect();
    let text = format!("{} {}", plain(&step.body), words.join(" "));
    let thing = Thing::Step(scheme.slug.clone(), step.stem.clone());
    Entry { stage: Some(step.stage.name()), ..entry("step", &step.title, &thing, scheme.title.clone(), text) }
}

fn of_paint(paint: &Paint) -> Entry {
    let place = format!("{} · {}", paint.maker, paint.range);
    let text: Vec<&str> = paint.code.iter().chain(&paint.note).map(String::as_str).collect();
    entry("paint", &paint.name, &Thing::Paint(paint.id.clone()), place, text.join(" "))
}

fn stages(guide: &Guide) -> impl Iterator<Item = Entry> {
    let used = |stage: &&Stage| guide.schemes.iter().flat_map(|scheme| &scheme.steps).any(|step| step.stage == **stage);
    Stage::ALL.iter().filter(used).map(|stage| Entry {
        stage: Some(stage.name()),
        ..entry("stage", "", &Thing::Stage(*stage), String::new(), String::new())
    })
}

/// The words of a text, without its marks.
fn plain(prose: &Prose) -> String {
    let mut text = String::new();
    for event in parser(prose.markdown()) {
        match event {
            Event::Text(words) | Event::Code(words) => text.push_str(&words),
            Event::SoftBreak | Event::HardBreak | Event::End(_) if !text.ends_with(' ') => text.push(' '),
            _ => {}
        }
    }
    text
}

/// Parts of at most [`PART`] letters; a longer entry is a part of its own.
fn parts(entries: impl Iterator<Item = Entry>) -> Vec<Vec<Entry>> {
    let mut parts: Vec<Vec<Entry>> = Vec::new();
    let mut room = 0;
    for entry in entries {
        let size = entry.title.len() + entry.place.len() + entry.text.len() + entry.href.len() + 60;
        if size > room {
            parts.push(Vec::new());
            room = PART;
        }
        room = room.saturating_sub(size);
        if let Some(part) = parts.last_mut() {
            part.push(entry);
        }
    }
    parts
}

/// Capitals and accents do not count where things are sorted.
fn folded(text: &str) -> String {
    text.nfkd()
        .filter(|letter| !unicode_normalization::char::is_combining_mark(*letter))
        .collect::<String>()
        .to_lowercase()
}

fn by_letter(mut entries: Vec<Entry>) -> Vec<LetterView> {
    entries.sort_by_cached_key(|entry| (folded(&entry.title), entry.href.clone()));
    let mut letters: BTreeMap<String, Vec<Entry>> = BTreeMap::new();
    for entry in entries {
        let first = folded(&entry.title).chars().find(|letter| letter.is_alphanumeric());
        let letter = match first {
            Some(letter) if letter.is_numeric() => "0–9".to_owned(),
            Some(letter) => letter.to_uppercase().collect(),
            None => "…".to_owned(),
        };
        letters.entry(letter).or_default().push(entry);
    }
    letters.into_iter().map(|(letter, entries)| LetterView { letter, entries }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(title: &str, letters: usize) -> Entry {
        entry("page", title, &Thing::Page("a".to_owned()), String::new(), "x".repeat(letters))
    }

    #[test]
    fn accents_and_capitals_do_not_part_what_belongs_together() {
        let letters = by_letter(vec![named("Zinc", 0), named("Éclat", 0), named("earth", 0), named("3 greys", 0)]);
        let shown: Vec<(&str, usize)> = letters.iter().map(|one| (one.letter.as_str(), one.entries.len())).collect();
        assert_eq!(shown, [("0–9", 1), ("E", 2), ("Z", 1)]);
        assert_eq!(letters[1].entries[0].title, "earth");
    }

    #[test]
    fn a_large_guide_is_searched_in_parts() {
        let entries = (0..30).map(|_| named("A", 50_000));
        let sizes: Vec<usize> = parts(entries).iter().map(Vec::len).collect();
        assert_eq!(sizes.iter().sum::<usize>(), 30);
        assert!(sizes.len() >= 3 && sizes.iter().all(|size| *size < 11), "{sizes:?}");
        assert_eq!(parts([named("A", 900_000), named("B", 1)].into_iter()).len(), 2);
    }
}
