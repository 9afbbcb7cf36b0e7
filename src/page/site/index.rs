//! The index: a colour card of all schemes.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::guide::{Guide, Thing};
use crate::page::parts::address::{Address, relative};
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::parts::picture::PictureView;
use crate::page::schemes::areas::{AreaView, areas};
use crate::page::schemes::drawn;
use crate::page::schemes::scheme::{GlanceView, tags};
use crate::page::{Desk, Page, View};
use crate::trade::{Skill, Technique};
use crate::work::WorkedScheme;

/// All schemes.
#[derive(Debug, Serialize)]
pub struct IndexView {
    /// What stands around it.
    pub frame: Frame,
    /// What the guide is called.
    pub title: String,
    /// One sentence on it.
    pub summary: Option<String>,
    /// The schemes.
    pub schemes: Vec<SchemeCard>,
    /// The armies.
    pub armies: Vec<LinkView>,
    /// The sequences.
    pub sequences: Vec<LinkView>,
    /// The list of stages, if any is used.
    pub stages: Option<String>,
    /// The list of tags, if any is used.
    pub tags: Option<String>,
    /// What the schemes can be narrowed down by.
    pub sieve: SieveView,
}

/// Every word of the schemes that a reader can choose by, each once.
#[derive(Debug, Serialize)]
pub struct SieveView {
    /// The tags as they are written.
    pub tags: Vec<String>,
    /// The levels; words below `level`.
    pub levels: Vec<&'static str>,
    /// The techniques; words below `technique`.
    pub techniques: Vec<&'static str>,
}

impl SieveView {
    fn of(guide: &Guide) -> Self {
        let schemes = || guide.schemes.iter();
        let tags: BTreeMap<&str, &str> =
            schemes().flat_map(|scheme| &scheme.tags).map(|tag| (tag.slug.as_str(), tag.name.as_str())).collect();
        let has = |level: &&Skill| schemes().any(|scheme| scheme.level == Some(**level));
        Self {
            tags: tags.into_values().map(str::to_owned).collect(),
            levels: Skill::ALL.iter().filter(has).map(|level| level.name()).collect(),
            techniques: techniques(schemes().flat_map(|scheme| &scheme.steps).map(|step| step.technique)),
        }
    }
}

/// Each technique once, in the trade's order.
fn techniques(used: impl Iterator<Item = Technique>) -> Vec<&'static str> {
    let used: Vec<Technique> = used.collect();
    Technique::ALL.iter().filter(|technique| used.contains(technique)).map(|technique| technique.name()).collect()
}

/// One scheme on the index.
#[derive(Debug, Serialize)]
pub struct SchemeCard {
    /// What it is called, and its page.
    pub link: LinkView,
    /// One sentence on how it looks.
    pub summary: Option<String>,
    /// The finished model.
    pub photo: Option<PictureView>,
    /// Its areas.
    pub areas: Vec<AreaView>,
    /// What it asks for.
    pub glance: GlanceView,
    /// Words to find it by.
    pub tags: Vec<LinkView>,
    /// Its variants.
    pub variants: Vec<LinkView>,
    /// The techniques that its steps use; words below `technique`.
    pub techniques: Vec<&'static str>,
}

/// The index page.
pub(in crate::page) fn page(desk: Desk<'_>) -> Page {
    let path = "index.html".to_owned();
    let guide = &desk.worked.guide;
    let has_steps = guide.schemes.iter().any(|scheme| !scheme.steps.is_empty());
    let has_tags = guide.schemes.iter().any(|scheme| !scheme.tags.is_empty());
    let view = IndexView {
        frame: Frame::new(guide, &path, Section::Schemes, &guide.title, guide.summary.as_deref()),
        title: guide.title.clone(),
        summary: guide.summary.clone(),
        schemes: bases(desk).map(|worked| card(desk, worked, &path)).collect(),
        sequences: guide
            .sequences
            .iter()
            .map(|one| LinkView::to(&path, &Thing::Sequence(one.slug.clone()), &one.title))
            .collect(),
        armies: guide
            .armies
            .iter()
            .map(|army| LinkView::to(&path, &Thing::Army(army.slug.clone()), &army.title))
            .collect(),
        stages: has_steps.then(|| "stages/index.html".to_owned()),
        tags: has_tags.then(|| "tags/index.html".to_owned()),
        sieve: SieveView::of(guide),
    };
    Page { path, view: View::Index(view), must_show: Vec::new() }
}

fn card(desk: Desk<'_>, worked: &WorkedScheme, path: &str) -> SchemeCard {
    let scheme = &worked.scheme;
    let href = relative(path, &Address::of(&Thing::Scheme(scheme.slug.clone())));
    SchemeCard {
        link: LinkView { title: scheme.title.clone(), href },
        summary: scheme.summary.clone(),
        photo: PictureView::of(desk, path, scheme.photo.as_ref()).or_else(|| drawn::finished(desk, worked, path)),
        areas: areas(worked),
        glance: GlanceView::of(worked),
        tags: tags(scheme, path),
        variants: variants(desk, worked, path),
        techniques: techniques(scheme.steps.iter().map(|step| step.technique)),
    }
}

/// The schemes as they are, without their versions.
fn bases(desk: Desk<'_>) -> impl Iterator<Item = &WorkedScheme> {
    desk.worked.schemes.iter().map(AsRef::as_ref).filter(|worked| worked.scheme.version.is_none())
}

fn variants(desk: Desk<'_>, worked: &WorkedScheme, path: &str) -> Vec<LinkView> {
    let all = desk.ledger.versions(desk.worked, &worked.scheme.slug).filter(|other| other.scheme.is_look());
    let named = all.filter_map(|other| Some((other, other.scheme.version.as_ref()?)));
    named
        .map(|(other, version)| LinkView::to(path, &Thing::Scheme(other.scheme.slug.clone()), &version.label))
        .collect()
}
