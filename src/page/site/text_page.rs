//! A free page, and the page for an address that leads nowhere.

use base64::Engine as _;
use serde::Serialize;
use sha2::{Digest as _, Sha256};

use crate::guide::{self, Thing};
use crate::page::parts::address::Address;
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::picture::PictureView;
use crate::page::parts::prose::{self, Company, Setting};
use crate::page::{Desk, Page, View};

/// A free page.
#[derive(Debug, Serialize)]
pub struct TextPageView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// What it is called.
    pub title: String,
    /// One sentence on it.
    pub summary: Option<String>,
    /// A picture at its head.
    pub photo: Option<PictureView>,
    /// Its text, as HTML.
    pub body: String,
}

/// The page for an address that leads nowhere.
#[derive(Debug, Serialize)]
pub struct LostView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// Its own style, for where the guide's can't be found from.
    pub style: &'static str,
    /// By what the page's policy knows that style.
    pub known: String,
}

/// The style that the page brings along: a host shows it at any depth, where no way leads to the guide's own.
const STYLE: &str = include_str!("lost.css");

/// The style that the page for a lost address brings along, as its policy names it: by its SHA-256.
pub fn lost_style() -> String {
    format!("'sha256-{}'", base64::engine::general_purpose::STANDARD.encode(Sha256::digest(STYLE)))
}

/// A free page of the guide.
pub(in crate::page) fn page(desk: Desk<'_>, page: &guide::Page) -> Page {
    let path = Address::of(&Thing::Page(page.slug.clone()));
    let setting = Setting { path: &path, level: 2, company: Company::None };
    let view = TextPageView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Elsewhere, &page.title, page.summary.as_deref()),
        title: page.title.clone(),
        summary: page.summary.clone(),
        photo: PictureView::of(desk, &path, page.photo.as_ref()),
        body: prose::html(desk, &page.body, setting),
    };
    Page { path, view: View::Text(view), must_show: Vec::new() }
}

/// The page for an address that leads nowhere. A host shows it in any folder, so its links begin at the
/// guide's own address where it has one.
pub(in crate::page) fn lost(desk: Desk<'_>) -> Page {
    let path = "404.html".to_owned();
    let guide = &desk.worked.guide;
    let mut frame = Frame::new(guide, &path, Section::Elsewhere, &guide.title, None);
    if let Some(address) = &guide.address {
        let folder = address.as_folder();
        let host_end = folder.find("://").map_or(0, |at| at + 3);
        let root = folder[host_end..].find('/').map_or("/", |at| &folder[host_end + at..]).to_owned();
        for item in frame.nav.iter_mut().chain(&mut frame.more) {
            item.href = format!("{root}{}", item.href);
        }
        frame.root = root;
    }
    frame.canonical = None;
    Page { path, view: View::Lost(LostView { frame, style: STYLE, known: lost_style() }), must_show: Vec::new() }
}
