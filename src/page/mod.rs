//! **Page**: plain views, one type a page, that a template can show without computing.

mod address;
mod army;
mod bare;
mod caution_box;
mod checks_page;
mod feed;
mod frame;
mod index;
mod line;
mod paints;
mod prose;
mod recipe;
mod scheme;
mod search;
mod shopping;
mod sitemap;
mod source_page;
mod step_page;
mod surface;
mod text_page;
mod uses;

use serde::Serialize;

pub use address::{Address, relative};
pub use army::ArmyView;
pub use bare::BareView;
pub use checks_page::{ChecksView, all_checks};
pub use feed::FeedView;
pub use frame::{Frame, NavItem};
pub use index::IndexView;
pub use paints::{PaintView, PaintsView};
pub use scheme::SchemeView;
pub use search::{SearchDataView, SearchView};
pub use shopping::ShoppingView;
pub use sitemap::SitemapView;
pub use source_page::SourceView;
pub use step_page::StepPageView;
pub use text_page::{LostView, TextPageView};
pub use uses::{UsesView, WordsView};

use crate::picture::Pictures;
use crate::work::Worked;

/// One file of the site before it is rendered: where it will stand, and what it shows.
#[derive(Debug)]
pub struct Page {
    /// The path in the published folder.
    pub path: String,
    /// What it shows.
    pub view: View,
    /// Texts that must stand in the finished page word for word: the cautions. No theme may lose them.
    pub must_show: Vec<String>,
}

/// What a page shows; the name of its template goes with it.
#[derive(Debug, Serialize)]
#[serde(untagged)]
pub enum View {
    /// All schemes.
    Index(IndexView),
    /// One scheme.
    Scheme(Box<SchemeView>),
    /// One step, large, for the painting desk.
    Step(Box<StepPageView>),
    /// A scheme's shopping list.
    Shopping(ShoppingView),
    /// A scheme's own Markdown.
    Source(SourceView),
    /// All paints.
    Paints(PaintsView),
    /// One paint.
    Paint(Box<PaintView>),
    /// All steps of a stage, or all schemes with a tag.
    Uses(UsesView),
    /// All stages, or all tags.
    Words(WordsView),
    /// One army.
    Army(ArmyView),
    /// A free page.
    Text(TextPageView),
    /// What is checked, and why.
    Checks(ChecksView),
    /// Everything from A to Z, and the way to search it.
    Search(SearchView),
    /// A part of the texts that are searched.
    SearchData(SearchDataView),
    /// A file of the frame alone.
    Bare(BareView),
    /// The page for an address that leads nowhere.
    Lost(LostView),
    /// What changed, for feed readers.
    Feed(FeedView),
    /// All addresses, for search engines.
    Sitemap(SitemapView),
}

impl View {
    /// The name of the template that shows it.
    pub fn template(&self) -> &'static str {
        match self {
            Self::Index(_) => "index.html",
            Self::Scheme(_) => "scheme.html",
            Self::Step(_) => "step.html",
            Self::Shopping(_) => "shopping.html",
            Self::Source(_) => "source.html",
            Self::Paints(_) => "paints.html",
            Self::Paint(_) => "paint.html",
            Self::Uses(_) => "uses.html",
            Self::Words(_) => "words.html",
            Self::Army(_) => "army.html",
            Self::Text(_) => "page.html",
            Self::Checks(_) => "checks.html",
            Self::Search(_) => "search.html",
            Self::SearchData(_) => "search.js",
            Self::Bare(view) => view.template,
            Self::Lost(_) => "404.html",
            Self::Feed(_) => "feed.xml",
            Self::Sitemap(_) => "sitemap.xml",
        }
    }
}

/// What pages are made from.
#[derive(Debug, Clone, Copy)]
pub struct Desk<'a> {
    /// The guide and all that was worked out about it.
    pub worked: &'a Worked,
    /// The sizes of its pictures.
    pub pictures: &'a Pictures,
}

/// All pages of a guide, in the order of their paths.
pub fn pages(desk: Desk<'_>) -> Vec<Page> {
    use rayon::prelude::*;

    let guide = &desk.worked.guide;
    let mut pages = vec![index::page(desk), checks_page::page(desk), text_page::lost(desk), paints::index(desk)];
    pages.extend(guide.pages.iter().map(|page| text_page::page(desk, page)));
    pages.extend(guide.armies.iter().map(|army| army::page(desk, army)));
    pages.extend(uses::pages(desk));
    pages.extend(search::pages(desk));
    pages.extend(bare::pages(desk));
    pages.extend(paints::pages(desk));
    let of_schemes: Vec<Vec<Page>> = desk.worked.schemes.par_iter().map(|scheme| scheme_pages(desk, scheme)).collect();
    pages.extend(of_schemes.into_iter().flatten());
    if let Some(address) = &guide.address {
        let folder = address.as_folder();
        pages.push(sitemap::page(&folder, &pages));
        pages.push(feed::page(guide, &folder));
    }
    pages.sort_by(|a, b| a.path.cmp(&b.path));
    pages
}

fn scheme_pages(desk: Desk<'_>, scheme: &crate::work::WorkedScheme) -> Vec<Page> {
    let mut pages = vec![scheme::page(desk, scheme), shopping::page(desk, scheme), source_page::page(desk, scheme)];
    pages.extend((0..scheme.scheme.steps.len()).map(|at| step_page::page(desk, scheme, at)));
    pages
}
