//! The list of all free pages, where there are more of them than go into the way about the guide.

use serde::Serialize;

use crate::guide::Thing;
use crate::page::parts::address::{Address, relative};
use crate::page::parts::frame::{Frame, PAGES, Section, has_list_of_pages};
use crate::page::parts::line::LinkView;
use crate::page::{Desk, Page, View};

/// All free pages.
#[derive(Debug, Serialize)]
pub struct PagesView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// The pages.
    pub pages: Vec<LinkView>,
}

/// Whether there is such a list.
pub(in crate::page) fn is_there(desk: Desk<'_>) -> bool {
    has_list_of_pages(&desk.worked.guide)
}

/// The list.
pub(in crate::page) fn page(desk: Desk<'_>) -> Page {
    let guide = &desk.worked.guide;
    let link = |page: &crate::guide::Page| LinkView {
        href: relative(PAGES, &Address::of(&Thing::Page(page.slug.clone()))),
        title: page.title.clone(),
    };
    let title = desk.words.filled("nav.pages", &[]);
    let view = PagesView {
        frame: Frame::new(guide, PAGES, Section::Elsewhere, &title, None),
        pages: guide.pages.iter().map(link).collect(),
    };
    Page { path: PAGES.to_owned(), view: View::Pages(view), must_show: Vec::new() }
}
