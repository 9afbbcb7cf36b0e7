//! Pages by word: all steps of a stage, all schemes with a tag, and the lists of stages and tags.

use std::collections::BTreeMap;

use serde::Serialize;

use super::address::{Address, relative};
use super::frame::{Frame, Section};
use super::line::LinkView;
use super::shopping::{UseView, uses};
use super::{Desk, Page, View};
use crate::guide::{Scheme, Tag, Thing};
use crate::trade::Stage;

/// Everything that goes by one word.
#[derive(Debug, Serialize)]
pub struct UsesView {
    /// What stands around it.
    pub frame: Frame,
    /// The stage, if the word is one; words below `stage` and `stage-about`.
    pub stage: Option<&'static str>,
    /// The tag, if the word is one.
    pub tag: Option<String>,
    /// The schemes, with their steps where the word is a stage.
    pub schemes: Vec<SchemeUses>,
}

/// A scheme on such a page.
#[derive(Debug, Serialize)]
pub struct SchemeUses {
    /// The scheme.
    pub scheme: LinkView,
    /// One sentence on it.
    pub summary: Option<String>,
    /// Its steps of the stage.
    pub steps: Vec<UseView>,
}

/// All stages, or all tags, that are used.
#[derive(Debug, Serialize)]
pub struct WordsView {
    /// What stands around it.
    pub frame: Frame,
    /// Whether they are stages; otherwise they are tags.
    pub stages: bool,
    /// The words.
    pub words: Vec<WordView>,
}

/// One word of such a list.
#[derive(Debug, Serialize)]
pub struct WordView {
    /// The stage, if it is one; words below `stage`.
    pub stage: Option<&'static str>,
    /// Otherwise the tag.
    pub tag: Option<String>,
    /// Its page.
    pub href: String,
    /// In how many schemes it is used.
    pub schemes: usize,
}

/// The pages of all stages and tags that are used.
pub(super) fn pages(desk: Desk<'_>) -> Vec<Page> {
    let stages = stages(desk);
    let tags = tags(desk);
    let mut pages = Vec::new();
    if !stages.is_empty() {
        let words = stages.iter().map(|(stage, schemes)| WordView {
            stage: Some(stage.name()),
            tag: None,
            href: relative("stages/index.html", &Address::stage(*stage)),
            schemes: schemes.len(),
        });
        pages.push(words_page(desk, "stages/index.html", true, words.collect()));
    }
    if !tags.is_empty() {
        let words = tags.iter().map(|(tag, schemes)| WordView {
            stage: None,
            tag: Some(tag.name.clone()),
            href: relative("tags/index.html", &Address::of(&Thing::Tag(tag.slug.clone()))),
            schemes: schemes.len(),
        });
        pages.push(words_page(desk, "tags/index.html", false, words.collect()));
    }
    pages.extend(stages.iter().map(|(stage, schemes)| stage_page(desk, *stage, schemes)));
    pages.extend(tags.iter().map(|(tag, schemes)| tag_page(desk, tag, schemes)));
    pages
}

/// The stages that are used, in the trade's order, with the schemes that have them.
fn stages(desk: Desk<'_>) -> Vec<(Stage, Vec<&Scheme>)> {
    let schemes = &desk.worked.guide.schemes;
    let with = |stage: Stage| {
        let having = schemes.iter().filter(|scheme| scheme.steps.iter().any(|step| step.stage == stage));
        having.map(AsRef::as_ref).collect::<Vec<&Scheme>>()
    };
    Stage::ALL.iter().map(|stage| (*stage, with(*stage))).filter(|(_, schemes)| !schemes.is_empty()).collect()
}

/// The tags that are used, by their slugs; a tag that is spelt in two ways is shown in the first one.
fn tags(desk: Desk<'_>) -> Vec<(&Tag, Vec<&Scheme>)> {
    let mut tags: BTreeMap<&str, (&Tag, Vec<&Scheme>)> = BTreeMap::new();
    for scheme in &desk.worked.guide.schemes {
        for tag in &scheme.tags {
            tags.entry(&tag.slug).or_insert_with(|| (tag, Vec::new())).1.push(scheme);
        }
    }
    tags.into_values().collect()
}

fn stage_page(desk: Desk<'_>, stage: Stage, schemes: &[&Scheme]) -> Page {
    let path = Address::stage(stage);
    let view = UsesView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Elsewhere, stage.name(), None),
        stage: Some(stage.name()),
        tag: None,
        schemes: schemes.iter().map(|scheme| scheme_uses(scheme, &path, Some(stage))).collect(),
    };
    Page { path, view: View::Uses(view), must_show: Vec::new() }
}

fn tag_page(desk: Desk<'_>, tag: &Tag, schemes: &[&Scheme]) -> Page {
    let path = Address::of(&Thing::Tag(tag.slug.clone()));
    let view = UsesView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Elsewhere, &tag.name, None),
        stage: None,
        tag: Some(tag.name.clone()),
        schemes: schemes.iter().map(|scheme| scheme_uses(scheme, &path, None)).collect(),
    };
    Page { path, view: View::Uses(view), must_show: Vec::new() }
}

fn scheme_uses(scheme: &Scheme, path: &str, stage: Option<Stage>) -> SchemeUses {
    SchemeUses {
        scheme: LinkView::to(path, &Thing::Scheme(scheme.slug.clone()), &scheme.title),
        summary: scheme.summary.clone(),
        steps: stage.map(|stage| uses(scheme, path, |step| step.stage == stage)).unwrap_or_default(),
    }
}

fn words_page(desk: Desk<'_>, path: &str, stages: bool, words: Vec<WordView>) -> Page {
    let guide = &desk.worked.guide;
    let frame = Frame::new(guide, path, Section::Elsewhere, &guide.title, None);
    Page { path: path.to_owned(), view: View::Words(WordsView { frame, stages, words }), must_show: Vec::new() }
}
