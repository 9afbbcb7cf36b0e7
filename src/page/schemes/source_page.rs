//! A scheme's own Markdown, highlighted, to copy and change.

use serde::Serialize;

use crate::draw;
use crate::guide::Thing;
use crate::page::parts::address::Address;
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::{Desk, Page, View};
use crate::work::WorkedScheme;

/// The files of a scheme.
#[derive(Debug, Serialize)]
pub struct SourceView {
    /// What stands around it.
    pub frame: Frame,
    /// The scheme.
    pub scheme: LinkView,
    /// Its files, `scheme.md` first.
    pub files: Vec<FileView>,
}

/// One file.
#[derive(Debug, Serialize)]
pub struct FileView {
    /// Its name.
    pub name: String,
    /// Its anchor on the page.
    pub anchor: String,
    /// Its text, highlighted, as HTML.
    pub html: String,
}

/// The page of a scheme's source.
pub(in crate::page) fn page(desk: Desk<'_>, worked: &WorkedScheme) -> Page {
    let scheme = &worked.scheme;
    let path = Address::source(&scheme.slug);
    let own = std::iter::once(("scheme", &scheme.source));
    let steps = scheme.steps.iter().map(|step| (step.stem.as_str(), &step.source));
    let files = own
        .chain(steps)
        .map(|(stem, text)| FileView {
            name: format!("{stem}.md"),
            anchor: stem.to_owned(),
            html: draw::markdown_source(text),
        })
        .collect();
    let view = SourceView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Schemes, &scheme.title, scheme.summary.as_deref()),
        scheme: LinkView::to(&path, &Thing::Scheme(scheme.slug.clone()), &scheme.title),
        files,
    };
    Page { path, view: View::Source(view), must_show: Vec::new() }
}
