//! Files that show nothing of the guide but its frame: the page about what this device keeps, the words of the
//! script, and what a browser needs to put the guide on a home screen.

use serde::Serialize;

use super::frame::{Frame, Section};
use super::{Desk, Page, View};

/// A file made from its template and the frame alone.
#[derive(Debug, Serialize)]
pub struct BareView {
    /// What stands around it.
    pub frame: Frame,
    /// The name of its template.
    #[serde(skip)]
    pub template: &'static str,
}

/// Each path with its template.
const FILES: [(&str, &str); 3] =
    [("device.html", "device.html"), ("data/words.js", "words.js"), ("manifest.webmanifest", "manifest.webmanifest")];

/// All such files.
pub(super) fn pages(desk: Desk<'_>) -> Vec<Page> {
    let guide = &desk.worked.guide;
    let page = |(path, template): (&str, &'static str)| {
        let frame = Frame::new(guide, path, Section::Elsewhere, &guide.title, None);
        Page { path: path.to_owned(), view: View::Bare(BareView { frame, template }), must_show: Vec::new() }
    };
    FILES.into_iter().map(page).collect()
}
