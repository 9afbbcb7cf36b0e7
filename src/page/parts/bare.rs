//! Files that show nothing of the guide but its frame: the page about what this device keeps, the words of the
//! script, and what a browser needs to put the guide on a home screen.

use serde::Serialize;
use serde_json::json;

use super::frame::{Frame, Section};
use crate::bench::Figure;
use crate::page::{Desk, Page, View};

/// A file made from its template and the frame alone.
#[derive(Debug, Serialize)]
pub struct BareView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// The figures that the script calculates with, as JSON: those of the program, so that they have one home.
    pub figures: String,
    /// The name of its template.
    #[serde(skip)]
    pub template: &'static str,
}

/// A file with its template.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bare {
    /// What this device keeps of the guide.
    Device,
    /// The words of the script, in the guide's language.
    Words,
    /// What a browser needs to put the guide on a home screen.
    Manifest,
}

impl Bare {
    /// All of them.
    pub(in crate::page) const ALL: [Self; 3] = [Self::Device, Self::Words, Self::Manifest];

    /// The path in the published folder.
    pub(in crate::page) const fn path(self) -> &'static str {
        match self {
            Self::Device => "device.html",
            Self::Words => "data/words.js",
            Self::Manifest => "manifest.webmanifest",
        }
    }

    const fn template(self) -> &'static str {
        match self {
            Self::Device => "device.html",
            Self::Words => "words.js",
            Self::Manifest => "manifest.webmanifest",
        }
    }
}

/// One of these files.
pub(in crate::page) fn page(desk: Desk<'_>, bare: Bare) -> Page {
    let guide = &desk.worked.guide;
    let frame = Frame::new(guide, bare.path(), Section::Elsewhere, &guide.title, None);
    let bench = &desk.worked.conditions.bench;
    let figures = json!({
        "missing": bench.get(Figure::RecipeMissing),
        "coarse": bench.get(Figure::PourCoarse).min(bench.get(Figure::PourTooMuch)),
        "too_much": bench.get(Figure::PourTooMuch),
    })
    .to_string();
    let view = View::Bare(BareView { frame, figures, template: bare.template() });
    Page { path: bare.path().to_owned(), view, must_show: Vec::new() }
}
