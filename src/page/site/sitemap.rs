//! All addresses of the site, for search engines.

use serde::Serialize;

use crate::page::{Desk, Page, View};

/// Where it stands.
pub(in crate::page) const PATH: &str = "sitemap.xml";

/// The most addresses in one file (sitemaps.org, protocol 0.9).
const MOST: usize = 50_000;

/// The addresses of all pages, or of the files that have them.
#[derive(Debug, Serialize)]
pub struct SitemapView {
    /// The full addresses.
    pub addresses: Vec<String>,
    /// Where there are too many for one file, the full addresses of those that have them; otherwise none.
    pub parts: Vec<String>,
}

/// How many files beside the first one the addresses of a site of so many files, with these paths, need; none where that one
/// is enough.
pub(in crate::page) fn parts(files: usize, paths: impl Iterator<Item = String>) -> usize {
    // Every page is a file: in all but the very largest guides nothing has to be counted.
    let pages = if files > MOST { paths.filter(|path| is_on_map(path)).count() } else { 0 };
    if pages > MOST { pages.div_ceil(MOST) } else { 0 }
}

/// The path of a part.
pub(in crate::page) fn part_path(at: usize) -> String {
    format!("sitemap-{}.xml", at + 1)
}

/// The map of all pages among these paths of the site. Only a guide that has an address has a map.
pub(in crate::page) fn page(desk: Desk<'_>, paths: Vec<String>) -> Page {
    let mut addresses = addresses(desk, paths);
    let parts = parts(addresses.len(), addresses.iter().cloned());
    if parts > 0 {
        addresses.clear();
    }
    let parts = (0..parts).map(|at| format!("{}{}", folder(desk), part_path(at))).collect();
    Page { path: PATH.to_owned(), view: View::Sitemap(SitemapView { addresses, parts }), must_show: Vec::new() }
}

/// One of the files that have the addresses, where there are too many for one.
pub(in crate::page) fn part(desk: Desk<'_>, paths: Vec<String>, at: usize) -> Page {
    let addresses = addresses(desk, paths).chunks(MOST).nth(at).unwrap_or_default().to_vec();
    let view = View::Sitemap(SitemapView { addresses, parts: Vec::new() });
    Page { path: part_path(at), view, must_show: Vec::new() }
}

fn folder(desk: Desk<'_>) -> String {
    desk.worked.guide.address.as_ref().map(crate::source::WebAddress::as_folder).unwrap_or_default()
}

/// Whether a path is that of a page; the page for lost readers is not on the map.
fn is_on_map(path: &str) -> bool {
    path.strip_suffix(".html").is_some_and(|name| name != "404")
}

fn addresses(desk: Desk<'_>, mut paths: Vec<String>) -> Vec<String> {
    let folder = folder(desk);
    paths.retain(|path| is_on_map(path));
    paths.sort_unstable();
    paths.into_iter().map(|path| format!("{folder}{path}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn more_addresses_than_one_file_may_have_are_in_parts() {
        let of = |pages: usize, lost: usize| {
            let paths = vec!["index.html".to_owned(); pages].into_iter().chain(vec!["404.html".to_owned(); lost]);
            parts(pages + lost, paths)
        };
        assert_eq!(of(2, 1), 0);
        assert_eq!(of(MOST, 9), 0, "the lost have no address");
        assert_eq!(of(MOST + 1, 0), 2);
        assert_eq!(of(3 * MOST, 1), 3);
    }
}
