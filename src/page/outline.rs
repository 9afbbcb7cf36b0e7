//! What there is to make: one small leaf for every file of the site, long before any of it is made.
//!
//! A large guide has many thousand pages, and all of them at once do not fit into memory. So the outline only names
//! them, [`make`] makes one, and whoever asked for it writes it and drops it.

use image::RgbImage;

use super::ledger::{StageUsers, TagUsers};
use super::parts::bare::{self, Bare};
use super::parts::frame::PAGES;
use super::site::search::{Excerpt, TextsPart};
use super::stock::basket::{self, Basket, Form};
use super::{
    Address, Desk, Page,
    armies::{army, tick_grid},
    schemes::{card, drawn, scheme, source_page, step_page},
    site::{checks_page, colours_page, feed, index, pages_page, search, sequence_page, sitemap, text_page, uses},
    stock::{paints, shopping},
};
use crate::guide::{self, Army, Paint, Thing};
use crate::render::Cut;
use crate::tell::calendar::army_calendar;
use crate::tell::chapters;
use crate::trade::Side;
use crate::work::WorkedScheme;

/// One file of the site that can be made.
#[derive(Debug, Clone, Copy)]
pub enum Leaf<'a> {
    /// All schemes.
    Index,
    /// What is checked, and why.
    Checks,
    /// How the colours were predicted.
    Colours,
    /// The page for an address that leads nowhere.
    Lost,
    /// A sequence.
    Sequence(&'a guide::Sequence),
    /// A free page.
    Text(&'a guide::Page),
    /// An army.
    Army(&'a Army),
    /// An army's grid to tick off on paper.
    TickGrid(&'a Army),
    /// An army's evenings as a calendar file.
    Calendar(&'a Army),
    /// All stages that are used.
    Stages,
    /// All free pages, where there are many.
    Pages,
    /// All tags that are used.
    Tags,
    /// All steps of a stage.
    Stage(&'a StageUsers),
    /// All schemes with a tag.
    Tag(&'a TagUsers),
    /// All paints.
    Paints,
    /// One paint.
    Paint(&'a Paint),
    /// One scheme.
    Scheme(&'a WorkedScheme),
    /// A shopping list: its page, or a file beside it.
    Shopping(Basket<'a>, Form),
    /// A scheme's own Markdown.
    Source(&'a WorkedScheme),
    /// The step at a position of a scheme, large, for the painting desk.
    Step(&'a WorkedScheme, usize),
    /// The picture of the model after the step at a position of a scheme, in one size.
    Drawn(&'a WorkedScheme, usize, Cut),
    /// The picture of a scheme's finished model, in one size.
    Finished(&'a WorkedScheme, Cut),
    /// The picture of a scheme's finished model from a side.
    Turned(&'a WorkedScheme, Side),
    /// A scheme's recipe, to print.
    Card(&'a WorkedScheme),
    /// A scheme's recipe, to paste.
    Recipe(&'a WorkedScheme),
    /// The chapters of a scheme's video, for players.
    Chapters(&'a WorkedScheme),
    /// The chapters of a scheme's video, to paste.
    ChapterList(&'a WorkedScheme),
    /// The picture for links to a scheme.
    Preview(&'a WorkedScheme),
    /// The picture for links to the guide.
    GuidePreview,
    /// The search page.
    Search,
    /// A part of the texts that are searched.
    SearchPart(TextsPart),
    /// A file of the frame alone.
    Bare(Bare),
    /// All addresses, for search engines.
    Sitemap,
    /// A part of a list of addresses that is too long for one file.
    SitemapPart(usize),
    /// What changed, for feed readers.
    Feed,
}

impl<'a> Leaf<'a> {
    /// The photo that it draws in, by its path from the content folder.
    pub fn photo(self) -> Option<&'a str> {
        match self {
            Self::Preview(worked) | Self::Card(worked) => worked.scheme.photo.as_ref().map(|photo| photo.path.as_str()),
            _ => None,
        }
    }

    /// The scheme that it shows, with its versions and nothing else of the guide's other schemes.
    pub fn scheme(self) -> Option<&'a WorkedScheme> {
        match self {
            Self::Scheme(worked)
            | Self::Source(worked)
            | Self::Step(worked, _)
            | Self::Drawn(worked, ..)
            | Self::Finished(worked, _)
            | Self::Turned(worked, _)
            | Self::Card(worked)
            | Self::Recipe(worked)
            | Self::Chapters(worked)
            | Self::ChapterList(worked)
            | Self::Preview(worked)
            | Self::Shopping(Basket::Scheme(worked), _) => Some(worked),
            _ => None,
        }
    }

    /// What it shows of schemes, where those are some and not all; beside them it shows what the guide has beside schemes,
    /// armies and pictures. Such a page must show nothing that all schemes have a part in.
    pub fn excerpt(self, desk: Desk<'a>) -> Option<Excerpt<'a>> {
        match self {
            Self::Paint(paint) => {
                let schemes = desk.ledger.painted_with(desk.worked, &paint.id).collect();
                Some(Excerpt { schemes, ends: Vec::new() })
            }
            Self::SearchPart(part) => part.excerpt(desk),
            _ => None,
        }
    }

    /// What a picture that takes time to draw is known by: while that is the same, so are its bytes.
    pub fn mark(&self) -> Option<String> {
        match self {
            Self::Drawn(worked, at, _) => drawn::mark(worked, *at),
            Self::Finished(worked, _) => drawn::finished_mark(worked),
            Self::Turned(worked, side) => drawn::turned_mark(worked, *side),
            _ => None,
        }
    }

    /// The path in the published folder.
    pub fn path(&self) -> String {
        match self {
            Self::Index => "index.html".to_owned(),
            Self::Checks => "checks.html".to_owned(),
            Self::Colours => colours_page::PATH.to_owned(),
            Self::Lost => "404.html".to_owned(),
            Self::Sequence(sequence) => Address::of(&Thing::Sequence(sequence.slug.clone())),
            Self::Text(page) => Address::of(&Thing::Page(page.slug.clone())),
            Self::Army(army) => Address::of(&Thing::Army(army.slug.clone())),
            Self::TickGrid(army) => Address::tick_grid(&army.slug),
            Self::Calendar(army) => Address::calendar(&army.slug),
            Self::Stages => "stages/index.html".to_owned(),
            Self::Pages => PAGES.to_owned(),
            Self::Tags => "tags/index.html".to_owned(),
            Self::Stage(users) => Address::stage(users.stage),
            Self::Tag(users) => Address::of(&Thing::Tag(users.tag.slug.clone())),
            Self::Paints => "paints/index.html".to_owned(),
            Self::Paint(paint) => Address::of(&Thing::Paint(paint.id.clone())),
            Self::Scheme(worked) => Address::of(&Thing::Scheme(worked.scheme.slug.clone())),
            Self::Shopping(basket, form) => basket.path(*form),
            Self::Source(worked) => Address::source(&worked.scheme.slug),
            Self::Step(worked, at) => step_page::address(&worked.scheme, *at),
            Self::Drawn(worked, at, cut) => drawn::address(worked, *at, *cut),
            Self::Finished(worked, cut) => drawn::finished_address(worked, *cut),
            Self::Turned(worked, side) => drawn::turned_address(worked, *side),
            Self::Card(worked) => Address::card(&worked.scheme.slug),
            Self::Recipe(worked) => Address::recipe(&worked.scheme.slug),
            Self::Chapters(worked) => Address::chapters(&worked.scheme.slug),
            Self::ChapterList(worked) => Address::chapter_list(&worked.scheme.slug),
            Self::Preview(worked) => Address::preview(&worked.scheme.slug),
            Self::GuidePreview => card::GUIDE_PREVIEW.to_owned(),
            Self::Search => search::PATH.to_owned(),
            Self::SearchPart(part) => part.path(),
            Self::Bare(bare) => bare.path().to_owned(),
            Self::Sitemap => sitemap::PATH.to_owned(),
            Self::SitemapPart(at) => sitemap::part_path(*at),
            Self::Feed => "feed.xml".to_owned(),
        }
    }
}

/// All files of a guide's site.
pub fn outline(desk: Desk<'_>) -> Vec<Leaf<'_>> {
    let guide = &desk.worked.guide;
    let mut leaves = vec![Leaf::Index, Leaf::Checks, Leaf::Colours, Leaf::Lost, Leaf::Paints, Leaf::Search];
    leaves.extend(search::parts(desk).into_iter().map(Leaf::SearchPart));
    leaves.extend(Bare::ALL.map(Leaf::Bare));
    leaves.extend(guide.pages.iter().map(Leaf::Text));
    leaves.extend(pages_page::is_there(desk).then_some(Leaf::Pages));
    leaves.extend(guide.sequences.iter().map(Leaf::Sequence));
    leaves.extend(guide.armies.iter().flat_map(|army| of_army(desk, army)));
    leaves.extend(guide.armies.iter().map(Basket::Army).flat_map(lists));
    if !desk.ledger.stages.is_empty() {
        leaves.push(Leaf::Stages);
        leaves.extend(desk.ledger.stages.iter().map(Leaf::Stage));
    }
    if !desk.ledger.tags.is_empty() {
        leaves.push(Leaf::Tags);
        leaves.extend(desk.ledger.tags.iter().map(Leaf::Tag));
    }
    leaves.extend(guide.paints.iter().map(|paint| Leaf::Paint(paint)));
    leaves.extend(desk.worked.schemes.iter().flat_map(|worked| of_scheme(worked)));
    if guide.address.is_some() {
        leaves.extend((0..sitemap::parts(leaves.len(), paths(&leaves))).map(Leaf::SitemapPart));
        leaves.extend([Leaf::Sitemap, Leaf::Feed, Leaf::GuidePreview]);
        // Link previews need full addresses, so without one nobody would ever see these.
        leaves.extend(desk.worked.schemes.iter().map(|worked| Leaf::Preview(worked)));
    }
    leaves
}

fn paths<'a>(leaves: &'a [Leaf<'_>]) -> impl Iterator<Item = String> + 'a {
    leaves.iter().map(Leaf::path)
}

fn lists(basket: Basket<'_>) -> impl Iterator<Item = Leaf<'_>> {
    [Form::Page].into_iter().chain(Form::FILES).map(move |form| Leaf::Shopping(basket, form))
}

fn of_army<'a>(desk: Desk<'a>, army: &'a Army) -> impl Iterator<Item = Leaf<'a>> {
    let calendar = desk.worked.plan(&army.slug).map(|_| Leaf::Calendar(army));
    [Leaf::Army(army), Leaf::TickGrid(army)].into_iter().chain(calendar)
}

pub(super) fn of_scheme(worked: &WorkedScheme) -> impl Iterator<Item = Leaf<'_>> {
    let whole = [Leaf::Scheme(worked), Leaf::Source(worked), Leaf::Card(worked), Leaf::Recipe(worked)];
    let filmed = chapters::has_chapters(&worked.scheme).then_some([Leaf::Chapters(worked), Leaf::ChapterList(worked)]);
    whole
        .into_iter()
        .chain(filmed.into_iter().flatten())
        .chain(lists(Basket::Scheme(worked)))
        .chain((0..worked.scheme.steps.len()).map(move |at| Leaf::Step(worked, at)))
        .chain(pictures(worked))
}

/// The pictures of the model after each step, and of the finished one from all sides, where it can be drawn.
fn pictures(worked: &WorkedScheme) -> impl Iterator<Item = Leaf<'_>> {
    let steps = if drawn::can_be(worked) { worked.looks.len() } else { 0 };
    let after = (0..steps).flat_map(move |at| Cut::ALL.map(|cut| Leaf::Drawn(worked, at, cut)));
    let finished = Cut::FOR_PAGES.into_iter().filter(move |_| steps > 0).map(move |cut| Leaf::Finished(worked, cut));
    after.chain(finished).chain(drawn::turns(worked).map(move |side| Leaf::Turned(worked, side)))
}

fn finished(leaf: Leaf<'_>, text: String) -> Page {
    Page::finished(leaf.path(), text)
}

/// Makes one file of the site.
pub fn make(desk: Desk<'_>, leaf: Leaf<'_>, photo: Option<&RgbImage>) -> Page {
    match leaf {
        Leaf::Index => index::page(desk),
        Leaf::Checks => checks_page::page(desk),
        Leaf::Colours => colours_page::page(desk),
        Leaf::Lost => text_page::lost(desk),
        Leaf::Sequence(sequence) => sequence_page::page(desk, sequence),
        Leaf::Text(page) => text_page::page(desk, page),
        Leaf::Army(army) => army::page(desk, army),
        Leaf::TickGrid(army) => tick_grid::page(desk, army),
        Leaf::Calendar(army) => finished(leaf, army_calendar(desk.worked, army, desk.words, &Leaf::Army(army).path())),
        Leaf::Stages => uses::stages(desk),
        Leaf::Pages => pages_page::page(desk),
        Leaf::Tags => uses::tags(desk),
        Leaf::Stage(users) => uses::stage(desk, users),
        Leaf::Tag(users) => uses::tag(desk, users),
        Leaf::Paints => paints::index(desk),
        Leaf::Paint(paint) => paints::page(desk, paint),
        Leaf::Scheme(worked) => scheme::page(desk, worked),
        Leaf::Shopping(basket, Form::Page) => shopping::page(desk, basket),
        Leaf::Shopping(basket, form) => basket::file(desk, basket, form),
        Leaf::Source(worked) => source_page::page(desk, worked),
        Leaf::Step(worked, at) => step_page::page(desk, worked, at),
        Leaf::Drawn(worked, at, cut) => drawn::file(desk, worked, at, cut),
        Leaf::Finished(worked, cut) => drawn::finished_file(desk, worked, cut),
        Leaf::Turned(worked, side) => drawn::turned_file(desk, worked, side),
        Leaf::Card(worked) => card::page(desk, worked, photo),
        Leaf::Recipe(worked) => card::text(desk, worked),
        Leaf::Chapters(worked) => finished(leaf, chapters::track(&worked.scheme, &desk.worked.guide.language)),
        Leaf::ChapterList(worked) => finished(leaf, chapters::list(&worked.scheme)),
        Leaf::Preview(worked) => card::preview(desk, worked, photo),
        Leaf::GuidePreview => card::guide_preview(desk),
        Leaf::Search => search::page(desk),
        Leaf::SearchPart(part) => search::part(desk, part),
        Leaf::Bare(bare) => bare::page(desk, bare),
        Leaf::Sitemap => sitemap::page(desk, paths(&outline(desk)).collect()),
        Leaf::SitemapPart(at) => sitemap::part(desk, paths(&outline(desk)).collect(), at),
        Leaf::Feed => feed::page(desk),
    }
}
