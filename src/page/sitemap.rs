//! All addresses of the site, for search engines.

use serde::Serialize;

use super::{Page, View};

/// The addresses of all pages.
#[derive(Debug, Serialize)]
pub struct SitemapView {
    /// The full addresses.
    pub addresses: Vec<String>,
}

/// The map of pages that are published at `folder`; the page for lost readers and files for programs are not on it.
pub(super) fn page(folder: &str, pages: &[Page]) -> Page {
    let is_mapped = |path: &&str| path.strip_suffix(".html").is_some_and(|name| name != "404");
    let mut paths: Vec<&str> = pages.iter().map(|page| page.path.as_str()).filter(is_mapped).collect();
    paths.sort_unstable();
    let addresses = paths.into_iter().map(|path| format!("{folder}{path}")).collect();
    Page { path: "sitemap.xml".to_owned(), view: View::Sitemap(SitemapView { addresses }), must_show: Vec::new() }
}
