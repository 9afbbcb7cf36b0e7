//! The index: a colour card of all schemes.

use serde::Serialize;

use super::address::{Address, relative};
use super::frame::{Frame, Section};
use super::line::LinkView;
use super::picture::PictureView;
use super::scheme::{AreaView, GlanceView, areas, tags};
use super::{Desk, Page, View};
use crate::guide::Thing;
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
    /// The list of stages, if any is used.
    pub stages: Option<String>,
    /// The list of tags, if any is used.
    pub tags: Option<String>,
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
}

/// The index page.
pub(super) fn page(desk: Desk<'_>) -> Page {
    let path = "index.html".to_owned();
    let guide = &desk.worked.guide;
    let has_steps = guide.schemes.iter().any(|scheme| !scheme.steps.is_empty());
    let has_tags = guide.schemes.iter().any(|scheme| !scheme.tags.is_empty());
    let view = IndexView {
        frame: Frame::new(guide, &path, Section::Schemes, &guide.title, guide.summary.as_deref()),
        title: guide.title.clone(),
        summary: guide.summary.clone(),
        schemes: desk.worked.schemes.iter().map(|worked| card(desk, worked, &path)).collect(),
        armies: guide
            .armies
            .iter()
            .map(|army| LinkView::to(&path, &Thing::Army(army.slug.clone()), &army.title))
            .collect(),
        stages: has_steps.then(|| "stages/index.html".to_owned()),
        tags: has_tags.then(|| "tags/index.html".to_owned()),
    };
    Page { path, view: View::Index(view), must_show: Vec::new() }
}

fn card(desk: Desk<'_>, worked: &WorkedScheme, path: &str) -> SchemeCard {
    let scheme = &worked.scheme;
    let href = relative(path, &Address::of(&Thing::Scheme(scheme.slug.clone())));
    SchemeCard {
        link: LinkView { title: scheme.title.clone(), href },
        summary: scheme.summary.clone(),
        photo: PictureView::of(desk, path, scheme.photo.as_ref()),
        areas: areas(worked),
        glance: GlanceView::of(worked),
        tags: tags(scheme, path),
    }
}
