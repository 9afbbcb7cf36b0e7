//! Where a link on a page leads: the one place that reads links of finished pages.

use percent_encoding::percent_decode_str;

/// Whether an address names its own way to be reached, such as `https:`.
pub(super) fn is_elsewhere(link: &str) -> bool {
    let before = link.split(['/', '?', '#']).next().unwrap_or_default();
    before.contains(':') || link.starts_with("//")
}

/// A link from a page, or from a style sheet, as it is written from the published folder. `None` where it leads out of
/// that: elsewhere, above it, or to the root of its host, for nobody knows in which folder there a site will stand.
pub(super) fn from_top(page: &str, link: &str) -> Option<String> {
    if is_elsewhere(link) || link.starts_with('/') {
        return None;
    }
    let end = link.find(['?', '#']).unwrap_or(link.len());
    let (path, rest) = link.split_at_checked(end)?;
    if path.is_empty() {
        return Some(format!("{page}{rest}"));
    }
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in path.split('/') {
        match part {
            "." => {}
            ".." => drop(parts.pop()?),
            part => parts.push(part),
        }
    }
    Some(parts.join("/") + rest)
}

/// The path of the file in the published folder that a link leads to, as it is called there.
pub(super) fn file(page: &str, link: &str) -> Option<String> {
    let path = from_top(page, link.split(['?', '#']).next()?)?;
    Some(percent_decode_str(&path).decode_utf8().ok()?.into_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &str = "schemes/boat/10-wash.html";

    #[test]
    fn a_link_leads_to_the_file_as_it_is_called() {
        let leads = |link: &str| file(PAGE, link);
        assert_eq!(leads("../boat.html").as_deref(), Some("schemes/boat.html"));
        assert_eq!(leads("./a%20b.jpg").as_deref(), Some("schemes/boat/a b.jpg"));
        assert_eq!(leads("../../pages/a.html?x=1/2#b/../c").as_deref(), Some("pages/a.html"));
        assert_eq!(leads("a/b:c.jpg").as_deref(), Some("schemes/boat/a/b:c.jpg"), "a colon that is no scheme's");
        assert_eq!(leads("#wash").as_deref(), Some(PAGE));
    }

    #[test]
    fn what_leads_out_of_the_site_is_no_file_of_it() {
        for link in ["https://o.example/a.jpg", "//o.example/a.jpg", "data:,", "/a.jpg", "../../../a.jpg", "%ff"] {
            assert_eq!(file(PAGE, link), None, "{link}");
        }
    }

    #[test]
    fn a_link_stays_as_it_is_written_where_it_is_written_again() {
        assert_eq!(from_top(PAGE, "../a%20b.html?c#d/..").as_deref(), Some("schemes/a%20b.html?c#d/.."));
        assert_eq!(from_top(PAGE, "?c").as_deref(), Some("schemes/boat/10-wash.html?c"));
        assert_eq!(from_top(PAGE, "/a.html"), None);
    }
}
