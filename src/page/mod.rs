//! **Page**: plain views, one type a page, that a template can show without computing.

mod armies;
mod ledger;
mod outline;
mod parts;
mod schemes;
mod site;
mod stock;
mod taken;

use serde::Serialize;

pub use armies::army::ArmyView;
pub use armies::tick_grid::TickGridView;
pub use ledger::Ledger;
pub use outline::{Leaf, make, outline};
pub use parts::address::{Address, relative};
pub use parts::bare::{Bare, BareView};
pub use schemes::card::portrait;
pub use schemes::scheme::SchemeView;
pub use schemes::source_page::SourceView;
pub use schemes::step_page::StepPageView;
pub use site::checks_page::ChecksView;
pub use site::colours_page::ColoursView;
pub use site::feed::FeedView;
pub use site::index::IndexView;
pub use site::pages_page::PagesView;
pub use site::search::{Excerpt, SearchDataView, SearchView};
pub use site::sequence_page::SequenceView;
pub use site::sitemap::SitemapView;
pub use site::text_page::{LostView, TextPageView, lost_style};
pub use site::uses::{UsesView, WordsView};
pub use stock::paints::{PaintView, PaintsView};
pub use stock::shopping::ShoppingView;
pub use taken::{CHECKS, taken};

use crate::card::Kit;
use crate::picture::Pictures;
use crate::render::Studio;
use crate::report::Finding;
use crate::theme::Words;
use crate::work::{BrushOuts, Worked};

/// One file of the site before it is rendered: where it will be, and what it shows.
#[derive(Debug)]
pub struct Page {
    /// The path in the published folder.
    pub path: String,
    /// What it shows.
    pub view: View,
    /// Texts that must be in the finished page word for word: the cautions. No theme may lose them.
    pub must_show: Vec<String>,
}

impl Page {
    /// A file that no template shows: data, a picture, a printed page. It is published byte for byte.
    pub fn finished(path: String, bytes: impl Into<Vec<u8>>) -> Self {
        Self { path, view: View::Finished(bytes.into()), must_show: Vec::new() }
    }
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
    /// The shopping list of a scheme or an army.
    Shopping(Box<ShoppingView>),
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
    Army(Box<ArmyView>),
    /// An army's models against their steps, to tick off on paper.
    TickGrid(TickGridView),
    /// A sequence.
    Sequence(SequenceView),
    /// A free page.
    Text(TextPageView),
    /// All free pages.
    Pages(PagesView),
    /// What is checked, and why.
    Checks(ChecksView),
    /// How the colours were predicted.
    Colours(ColoursView),
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
    /// What needs no template: the bytes of the file.
    #[serde(skip)]
    Finished(Vec<u8>),
    /// What can't be made, and why.
    #[serde(skip)]
    Failed(Box<Finding>),
}

impl View {
    /// The name of the template that shows it; none for finished bytes.
    pub fn template(&self) -> Option<&'static str> {
        Some(match self {
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
            Self::TickGrid(_) => "tick-grid.html",
            Self::Sequence(_) => "sequence.html",
            Self::Text(_) => "page.html",
            Self::Pages(_) => "pages.html",
            Self::Checks(_) => "checks.html",
            Self::Colours(_) => "colours.html",
            Self::Search(_) => "search.html",
            Self::SearchData(_) => "search.js",
            Self::Bare(view) => view.template,
            Self::Lost(_) => "404.html",
            Self::Feed(_) => "feed.xml",
            Self::Sitemap(_) => "sitemap.xml",
            Self::Finished(_) | Self::Failed(_) => return None,
        })
    }
}

/// What pages are made from.
#[derive(Debug, Clone, Copy)]
pub struct Desk<'a> {
    /// The guide and all that was worked out about it.
    pub worked: &'a Worked,
    /// The sizes of its pictures.
    pub pictures: &'a Pictures,
    /// The words of the interface, for texts that no template makes.
    pub words: &'a Words,
    /// How its paints look on card.
    pub brush_outs: &'a BrushOuts,
    /// Who uses what.
    pub ledger: &'a Ledger,
    /// What cards are printed with.
    pub kit: Kit<'a>,
    /// Where models are drawn.
    pub studio: &'a Studio,
}
