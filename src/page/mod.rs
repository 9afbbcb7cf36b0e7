//! **Page**: plain views, one type a page, that a template can show without computing.

mod address;
mod army;
mod army_calendar;
mod bare;
mod basket;
mod card;
mod caution_box;
mod cautions_said;
mod chapters;
mod checks_page;
mod colours_page;
mod columns;
mod feed;
mod frame;
mod gear_box;
mod ics;
mod index;
mod ledger;
mod line;
mod mix_amounts;
mod near;
mod outline;
mod outlook;
mod paints;
mod picture;
mod plan_json;
mod plan_text;
mod plan_view;
mod planned;
mod prose;
mod recipe;
mod scheme;
mod search;
mod shopping;
mod sitemap;
mod slip_data;
mod source_page;
mod step_page;
mod surface;
mod taken;
mod task;
mod text_page;
mod tick_grid;
mod uses;

use serde::Serialize;

pub use address::{Address, relative};
pub use army::ArmyView;
pub use army_calendar::army_calendar;
pub use bare::{Bare, BareView};
pub use basket::{Basket, Form};
pub use checks_page::{ChecksView, all_checks};
pub use colours_page::ColoursView;
pub use feed::FeedView;
pub use frame::{Frame, NavItem};
pub use index::IndexView;
pub use ledger::{Ledger, StageUsers, TagUsers};
pub use near::NearView;
pub use outline::{Leaf, make, outline};
pub use paints::{PaintView, PaintsView};
pub use plan_json::plan_json;
pub use plan_text::plan_text;
pub use scheme::SchemeView;
pub use search::{SearchDataView, SearchView};
pub use shopping::ShoppingView;
pub use sitemap::SitemapView;
pub use source_page::SourceView;
pub use step_page::StepPageView;
pub use taken::taken;
pub use text_page::{LostView, TextPageView};
pub use tick_grid::TickGridView;
pub use uses::{UsesView, WordsView};

use crate::card::Kit;
use crate::picture::Pictures;
use crate::report::Finding;
use crate::theme::Words;
use crate::work::{BrushOuts, Worked};

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
    /// A free page.
    Text(TextPageView),
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
            Self::Text(_) => "page.html",
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
}
