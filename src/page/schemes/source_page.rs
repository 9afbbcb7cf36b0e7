//! A scheme's own Markdown, highlighted, to copy and change.

use serde::Serialize;

use crate::draw;
use crate::guide::Thing;
use crate::page::parts::address::Address;
use crate::page::parts::caution_box;
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::{Desk, Page, View};
use crate::work::WorkedScheme;

/// The files of a scheme.
#[derive(Debug, Serialize)]
pub struct SourceView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// The scheme.
    pub scheme: LinkView,
    /// Its files, `scheme.md` first.
    pub files: Vec<FileView>,
    /// The cautions of all steps in full, finished.
    pub cautions: String,
}

/// One file.
#[derive(Debug, Serialize)]
pub struct FileView {
    /// Its name.
    pub name: String,
    /// Its anchor on the page.
    pub anchor: String,
    /// What to do before the step, as one line, finished; empty for `scheme.md`.
    pub to_do: String,
    /// Its text, highlighted, as HTML.
    pub html: String,
}

/// The page of a scheme's source.
pub(in crate::page) fn page(desk: Desk<'_>, worked: &WorkedScheme) -> Page {
    let scheme = &worked.scheme;
    let path = Address::source(&scheme.slug);
    let file = |stem: &str, text: &str, to_do: String| FileView {
        name: format!("{stem}.md"),
        anchor: stem.to_owned(),
        to_do,
        html: draw::markdown_source(text),
    };
    let steps = scheme.steps.iter().zip(&worked.step_cautions).flat_map(|(step, cautions)| {
        let to_do = caution_box::line(&desk.worked.guide, [cautions]);
        let used = step.via.as_ref().filter(|via| via.first).map(|via| file(&via.stem, &via.source, String::new()));
        let own = match &step.via {
            Some(via) => FileView {
                name: format!("sequences/{}/{}.md", via.sequence, via.own),
                ..file(&step.stem, &step.source, to_do)
            },
            None => file(&step.stem, &step.source, to_do),
        };
        used.into_iter().chain([own]).collect::<Vec<_>>()
    });
    let files: Vec<FileView> = std::iter::once(file("scheme", &scheme.source, String::new())).chain(steps).collect();
    let cautions = caution_box::of_scheme(desk, worked);
    let must_show = files.iter().map(|file| &file.to_do).chain([&cautions]);
    let must_show = must_show.filter(|text| !text.is_empty()).cloned().collect();
    let view = SourceView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Schemes, &scheme.title, scheme.summary.as_deref()),
        scheme: LinkView::to(&path, &Thing::Scheme(scheme.slug.clone()), &scheme.title),
        files,
        cautions,
    };
    Page { path, view: View::Source(view), must_show }
}
