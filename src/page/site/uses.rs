//! Pages by word: all steps of a stage, all schemes with a tag, and the lists of stages and tags.

use serde::Serialize;

use crate::guide::{Scheme, Thing};
use crate::page::ledger::{self, StageUsers, TagUsers};
use crate::page::parts::address::{Address, relative};
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::stock::shopping::{UseView, uses};
use crate::page::{Desk, Page, View};
use crate::trade::Stage;

/// Everything that goes by one word.
#[derive(Debug, Serialize)]
pub struct UsesView {
    /// The frame around it: head, navigation and foot.
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
    /// The frame around it: head, navigation and foot.
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

/// The list of all stages that are used.
pub(in crate::page) fn stages(desk: Desk<'_>) -> Page {
    let path = "stages/index.html";
    let words = desk.ledger.stages.iter().map(|users| WordView {
        stage: Some(users.stage.name()),
        tag: None,
        href: relative(path, &Address::stage(users.stage)),
        schemes: users.schemes.len(),
    });
    words_page(desk, path, true, words.collect())
}

/// The list of all tags that are used.
pub(in crate::page) fn tags(desk: Desk<'_>) -> Page {
    let path = "tags/index.html";
    let words = desk.ledger.tags.iter().map(|users| WordView {
        stage: None,
        tag: Some(users.tag.name.clone()),
        href: relative(path, &Address::of(&Thing::Tag(users.tag.slug.clone()))),
        schemes: users.schemes.len(),
    });
    words_page(desk, path, false, words.collect())
}

/// The page of a stage.
pub(in crate::page) fn stage(desk: Desk<'_>, StageUsers { stage, schemes }: &StageUsers) -> Page {
    let path = Address::stage(*stage);
    let view = UsesView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Elsewhere, stage.name(), None),
        stage: Some(stage.name()),
        tag: None,
        schemes: ledger::at(desk.worked, schemes).map(|scheme| scheme_uses(scheme, &path, Some(*stage))).collect(),
    };
    Page { path, view: View::Uses(view), must_show: Vec::new() }
}

/// The page of a tag.
pub(in crate::page) fn tag(desk: Desk<'_>, TagUsers { tag, schemes }: &TagUsers) -> Page {
    let path = Address::of(&Thing::Tag(tag.slug.clone()));
    let view = UsesView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Elsewhere, &tag.name, None),
        stage: None,
        tag: Some(tag.name.clone()),
        schemes: ledger::at(desk.worked, schemes).map(|scheme| scheme_uses(scheme, &path, None)).collect(),
    };
    Page { path, view: View::Uses(view), must_show: Vec::new() }
}

fn scheme_uses(scheme: &Scheme, path: &str, stage: Option<Stage>) -> SchemeUses {
    SchemeUses {
        scheme: LinkView::to(path, &Thing::Scheme(scheme.slug.clone()), &scheme.title),
        summary: scheme.summary.clone(),
        steps: stage.map(|stage| uses(scheme, path, |_, step| step.stage == stage)).unwrap_or_default(),
    }
}

fn words_page(desk: Desk<'_>, path: &str, stages: bool, words: Vec<WordView>) -> Page {
    let guide = &desk.worked.guide;
    let frame = Frame::new(guide, path, Section::Elsewhere, &guide.title, None);
    Page { path: path.to_owned(), view: View::Words(WordsView { frame, stages, words }), must_show: Vec::new() }
}
