//! What stands around every page: its head, the way about the guide, and the foot.

use serde::Serialize;

use super::address::{Address, relative};
use super::picture::PictureView;
use crate::card::PREVIEW_SIZE;
use crate::guide::{Guide, Page, Thing};
use crate::page::schemes::card::GUIDE_PREVIEW;
use crate::theme::is_from_right;

/// The frame of one page.
#[derive(Debug, Clone, Serialize)]
pub struct Frame {
    /// What the page is called; the index is called like the guide.
    pub title: String,
    /// One sentence on it, for search engines and link previews.
    pub description: Option<String>,
    /// The title of the guide.
    pub guide: String,
    /// Who wrote the guide.
    pub author: String,
    /// The licence of the guide.
    pub licence: Option<String>,
    /// The language of the guide.
    pub language: String,
    /// Which way it is written, where that is from right to left: `rtl`.
    pub direction: Option<&'static str>,
    /// What leads from this page to the published folder: empty, or `../` once or more.
    pub root: String,
    /// The slug of the scheme that the page belongs to: the script keeps a reader's marks by it.
    pub scheme: Option<String>,
    /// What the reader's marks on the page are kept under: the scheme, or an army by its path.
    pub marks: Option<String>,
    /// The page's full address, if the guide has one.
    pub canonical: Option<String>,
    /// The picture for links to the page (Open Graph), if the guide has an address.
    pub preview: Option<PictureView>,
    /// Whether there is a feed.
    pub feed: bool,
    /// The way about the guide, as much of it as goes on one line of a telephone.
    pub nav: Vec<NavItem>,
    /// The free pages, where they do not go on that line: as many as can be looked through.
    pub more: Vec<NavItem>,
    /// The way to the list of all of them, where there are more.
    pub all_pages: Option<String>,
}

/// One link of the way about the guide.
#[derive(Debug, Clone, Serialize)]
pub struct NavItem {
    /// The key of its words, below `nav`; empty where `title` holds.
    pub key: &'static str,
    /// Its words, where they are the author's.
    pub title: Option<String>,
    /// Where it leads.
    pub href: String,
    /// `page` where this page is the one it leads to, `section` where this page belongs to it, otherwise empty.
    pub current: &'static str,
}

/// The parts of the guide that the way about it shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::page) enum Section {
    /// The index and all schemes.
    Schemes,
    /// The paints.
    Paints,
    /// The armies.
    Armies,
    /// The search page.
    Search,
    /// None of them.
    Elsewhere,
}

impl Frame {
    /// The frame of the page at `path`.
    pub(in crate::page) fn new(
        guide: &Guide,
        path: &str,
        section: Section,
        title: &str,
        description: Option<&str>,
    ) -> Self {
        Self {
            title: title.to_owned(),
            description: description.map(str::to_owned),
            guide: guide.title.clone(),
            author: guide.author.clone(),
            licence: guide.licence.clone(),
            language: guide.language.clone(),
            direction: is_from_right(&guide.language).then_some("rtl"),
            root: "../".repeat(path.matches('/').count()),
            scheme: slug_below("schemes", path),
            marks: slug_below("schemes", path).or_else(|| Some(format!("armies/{}", slug_below("armies", path)?))),
            canonical: guide.address.as_ref().map(|address| address.as_folder() + path),
            preview: guide.address.as_ref().map(|address| preview(guide, &address.as_folder(), path)),
            feed: guide.address.is_some(),
            nav: nav(guide, path, section),
            more: if on_the_line(guide) { Vec::new() } else { pages(guide, path) },
            all_pages: has_list_of_pages(guide).then(|| relative(path, PAGES)),
        }
    }
}

/// The picture for links to the page at `path`: that of its scheme, otherwise that of the guide.
fn preview(guide: &Guide, folder: &str, path: &str) -> PictureView {
    let slug = path.strip_prefix("schemes/").and_then(|rest| rest.split(['/', '.']).next());
    // Schemes stand in the order of their slugs.
    let found = slug.and_then(|slug| guide.schemes.binary_search_by(|scheme| scheme.slug.as_str().cmp(slug)).ok());
    let scheme = found.and_then(|at| guide.schemes.get(at));
    let (file, alt) = match scheme {
        Some(scheme) => (Address::preview(&scheme.slug), &scheme.title),
        None => (GUIDE_PREVIEW.to_owned(), &guide.title),
    };
    let (width, height) = PREVIEW_SIZE;
    PictureView {
        src: format!("{folder}{file}"),
        srcset: String::new(),
        alt: alt.clone(),
        caption: None,
        width,
        height,
    }
}

fn nav(guide: &Guide, path: &str, section: Section) -> Vec<NavItem> {
    let item = |key, target: &str, of| NavItem {
        key,
        title: None,
        href: relative(path, target),
        current: current(path == target, section == of),
    };
    let mut items = vec![item("schemes", "index.html", Section::Schemes)];
    if !guide.paints.is_empty() {
        items.push(item("paints", "paints/index.html", Section::Paints));
    }
    if let Some(first) = guide.armies.first() {
        let mut armies = item("armies", &format!("armies/{}.html", first.slug), Section::Armies);
        if guide.armies.len() > 1 {
            armies = item("armies", "index.html", Section::Armies);
            armies.href.push_str("#armies");
        }
        items.push(armies);
    }
    if on_the_line(guide) {
        items.extend(pages(guide, path));
    }
    items.push(item("search", "search.html", Section::Search));
    items
}

/// So many letters of the author's go on the line beside schemes, paints, armies and the search.
const MOST_LETTERS: usize = 12;

/// Where the list of all free pages is in the published folder.
pub(in crate::page) const PAGES: &str = "pages.html";

/// The most free pages that every page leads to.
const MOST_PAGES: usize = 12;

/// Whether there are more free pages than every page leads to.
pub(in crate::page) fn has_list_of_pages(guide: &Guide) -> bool {
    guide.pages.len() > MOST_PAGES
}

/// Whether the titles of all free pages go on the line.
fn on_the_line(guide: &Guide) -> bool {
    !has_list_of_pages(guide)
        && guide.pages.iter().map(|page| page.title.chars().count()).sum::<usize>() <= MOST_LETTERS
}

/// The way to the free pages.
fn pages(guide: &Guide, path: &str) -> Vec<NavItem> {
    let item = |page: &Page| {
        let target = Address::of(&Thing::Page(page.slug.clone()));
        NavItem {
            key: "",
            title: Some(page.title.clone()),
            href: relative(path, &target),
            current: current(path == target, false),
        }
    };
    guide.pages.iter().take(MOST_PAGES).map(item).collect()
}

/// The scheme or the army whose page, or whose folder, a path is.
fn slug_below(folder: &str, path: &str) -> Option<String> {
    let inside = path.strip_prefix(folder)?.strip_prefix('/')?;
    let slug = inside.split_once('/').map_or_else(|| inside.strip_suffix(".html"), |(folder, _)| Some(folder));
    slug.map(str::to_owned)
}

fn current(is_page: bool, is_section: bool) -> &'static str {
    match (is_page, is_section) {
        (true, _) => "page",
        (false, true) => "section",
        (false, false) => "",
    }
}
