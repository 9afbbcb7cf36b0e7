//! All addresses of the site, for search engines.

use serde::Serialize;

use crate::page::outline::outline;
use crate::page::{Desk, Page, View};

/// The addresses of all pages.
#[derive(Debug, Serialize)]
pub struct SitemapView {
    /// The full addresses.
    pub addresses: Vec<String>,
}

/// The map of all pages; the page for lost readers is not on it. Only a guide that has an address has a map.
pub(in crate::page) fn page(desk: Desk<'_>) -> Page {
    let folder = desk.worked.guide.address.as_ref().map(crate::source::WebAddress::as_folder).unwrap_or_default();
    let is_page = |path: &String| path.strip_suffix(".html").is_some_and(|name| name != "404");
    let mut paths: Vec<String> = outline(desk).iter().map(crate::page::Leaf::path).filter(is_page).collect();
    paths.sort_unstable();
    let addresses = paths.into_iter().map(|path| format!("{folder}{path}")).collect();
    Page { path: "sitemap.xml".to_owned(), view: View::Sitemap(SitemapView { addresses }), must_show: Vec::new() }
}
