//! The last look at a page before it is written: whether a reader sees every caution.

use std::borrow::Cow;

use crate::page::Page;
use crate::report::{FileId, Finding, Place};
use crate::theme::CAUTION_LOST;

/// A page without its HTML comments, which no reader sees.
fn without_comments(html: &str) -> Cow<'_, str> {
    if !html.contains("<!--") {
        return Cow::Borrowed(html);
    }
    let mut seen = String::with_capacity(html.len());
    let mut rest = html;
    while let Some((before, behind)) = rest.split_once("<!--") {
        seen.push_str(before);
        rest = behind.split_once("-->").map_or("", |(_, after)| after);
    }
    Cow::Owned(seen + rest)
}

/// Elements whose content is not shown, or only when asked for.
const CLOSED: [&str; 6] = ["template", "textarea", "details", "noscript", "select", "title"];

/// Where elements that are not shown begin and end: from each place on, whether one is open.
fn closed_parts(html: &str) -> Vec<(usize, bool)> {
    let mut open = [0_usize; CLOSED.len()];
    let mut parts = Vec::new();
    for (at, _) in html.match_indices('<') {
        let tag = &html[at + 1..];
        let (name, ends) = tag.strip_prefix('/').map_or((tag, false), |name| (name, true));
        let Some(which) = CLOSED.iter().position(|closed| name.starts_with(closed)) else { continue };
        open[which] = if ends { open[which].saturating_sub(1) } else { open[which] + 1 };
        parts.push((at, open.iter().any(|count| *count > 0)));
    }
    parts
}

/// Whether a text stands in a page, and not inside an element that keeps it from being seen.
fn is_shown(html: &str, closed: &[(usize, bool)], text: &str) -> bool {
    html.match_indices(text).any(|(at, _)| {
        let before = closed.partition_point(|(place, _)| *place < at);
        before.checked_sub(1).and_then(|last| closed.get(last)).is_none_or(|(_, is_closed)| !is_closed)
    })
}

/// A template that leaves a caution out is stopped here, whatever else it shows.
pub(super) fn lost_caution(page: &Page, template: &str, html: &str, guide_file: FileId) -> Option<Finding> {
    if page.must_show.is_empty() {
        return None;
    }
    let seen = without_comments(html);
    let closed = closed_parts(&seen);
    let lost = page.must_show.iter().any(|text| !is_shown(&seen, &closed, text));
    lost.then(|| {
        let message = format!("the template '{template}' leaves out a caution of {}", page.path);
        let mend = "show {{ step.cautions | safe }} for every step, and {{ cautions | safe }} for the scheme";
        Finding::new(&CAUTION_LOST, Place::top_of(guide_file), message, mend)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_folded_away_or_commented_out_is_not_shown() {
        let cases = [
            ("<p>Mask!</p>", true),
            ("<details><p>Mask!</p></details>", false),
            ("<details><summary>More</summary></details><p>Mask!</p>", true),
            ("</details><details><p>Mask!</p>", false),
            ("<template><details></details><p>Mask!</p></template>", false),
            ("<template><p>Mask!</p></template><p>Mask!</p>", true),
            ("<!-- <p>Mask!</p> -->", false),
            ("<!-- <details> --><p>Mask!</p>", true),
            ("<!-- <p>Mask!</p>", false),
        ];
        for (html, wanted) in cases {
            let seen = without_comments(html);
            assert_eq!(is_shown(&seen, &closed_parts(&seen), "<p>Mask!</p>"), wanted, "{html}");
        }
    }
}
