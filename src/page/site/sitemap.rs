//! All addresses of the site, for search engines.

use serde::Serialize;

use crate::page::{Desk, Page, View};

/// The addresses of all pages.
#[derive(Debug, Serialize)]
pub struct SitemapView {
    /// The full addresses.
    pub addresses: Vec<String>,
}

/// The map of all pages among these paths of the site; the page for lost readers is not on it. Only a guide that has an address has a map.
pub(in crate::page) fn page(desk: Desk<'_>, mut paths: Vec<String>) -> Page {
    let folder = desk.worked.guide.address.as_ref().map(crate::source::WebAddress::as_folder).unwrap_or_default();
    paths.retain(|path| path.strip_suffix(".html").is_some_and(|name| name != "404"));
    paths.sort_unstable();
    let addresses = paths.into_iter().map(|path| format!("{folder}{path}")).collect();
    Page { path: "sitemap.xml".to_owned(), view: View::Sitemap(SitemapView { addresses }), must_show: Vec::new() }
}
