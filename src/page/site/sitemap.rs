//! All addresses of the site, for search engines.

use serde::Serialize;

use crate::page::{Desk, Leaf, Page, View};

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

/// How many files beside the first one the addresses of these files of the site need; none where that one is enough.
pub(in crate::page) fn parts(leaves: &[Leaf<'_>]) -> usize {
    // Every page is a file: in all but the very largest guides nothing has to be counted.
    let pages = if leaves.len() > MOST { paths(leaves).count() } else { 0 };
    if pages > MOST { pages.div_ceil(MOST) } else { 0 }
}

/// The path of a part.
pub(in crate::page) fn part_path(at: usize) -> String {
    format!("sitemap-{}.xml", at + 1)
}

/// The map of all pages among the files of the site. Only a guide that has an address has a map.
pub(in crate::page) fn page(desk: Desk<'_>, leaves: &[Leaf<'_>]) -> Page {
    let parts = parts(leaves);
    let addresses = if parts == 0 { addresses(desk, leaves, 0) } else { Vec::new() };
    let parts = (0..parts).map(|at| format!("{}{}", folder(desk), part_path(at))).collect();
    Page { path: PATH.to_owned(), view: View::Sitemap(SitemapView { addresses, parts }), must_show: Vec::new() }
}

/// One of the files that have the addresses, where there are too many for one.
pub(in crate::page) fn part(desk: Desk<'_>, leaves: &[Leaf<'_>], at: usize) -> Page {
    let view = SitemapView { addresses: addresses(desk, leaves, at), parts: Vec::new() };
    Page { path: part_path(at), view: View::Sitemap(view), must_show: Vec::new() }
}

fn folder(desk: Desk<'_>) -> String {
    desk.worked.guide.address.as_ref().map(crate::source::WebAddress::as_folder).unwrap_or_default()
}

/// The paths of the pages; the page for lost readers is not on the map.
fn paths<'a>(leaves: &'a [Leaf<'_>]) -> impl Iterator<Item = String> + 'a {
    leaves.iter().map(Leaf::path).filter(|path| path.strip_suffix(".html").is_some_and(|name| name != "404"))
}

fn addresses(desk: Desk<'_>, leaves: &[Leaf<'_>], part: usize) -> Vec<String> {
    let folder = folder(desk);
    let mut paths: Vec<String> = paths(leaves).collect();
    paths.sort_unstable();
    paths.chunks(MOST).nth(part).unwrap_or_default().iter().map(|path| format!("{folder}{path}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn more_addresses_than_one_file_may_have_are_in_parts() {
        assert_eq!(parts(&[Leaf::Index, Leaf::Search, Leaf::Lost]), 0);
        assert_eq!(parts(&vec![Leaf::Index; MOST]), 0);
        assert_eq!(parts(&[vec![Leaf::Index; MOST], vec![Leaf::Lost; 9]].concat()), 0, "the lost have no address");
        assert_eq!(parts(&vec![Leaf::Index; MOST + 1]), 2);
        assert_eq!(parts(&vec![Leaf::Index; 3 * MOST]), 3);
    }
}
