//! The last look at a page before it is written: whether a reader sees every caution.

use crate::page::Page;
use crate::report::{FileId, Finding, Place};
use crate::theme::CAUTION_LOST;

/// A page without its HTML comments, which no reader sees.
fn without_comments(html: &str) -> String {
    let mut seen = String::with_capacity(html.len());
    let mut rest = html;
    while let Some((before, behind)) = rest.split_once("<!--") {
        seen.push_str(before);
        rest = behind.split_once("-->").map_or("", |(_, after)| after);
    }
    seen + rest
}

/// Elements whose content is not shown, or only when asked for.
const CLOSED: &[&str] = &["template", "textarea", "details", "noscript", "select", "title"];

/// Whether a text stands in a page, and not inside an element that keeps it from being seen.
fn is_shown(html: &str, text: &str) -> bool {
    html.match_indices(text).any(|(at, _)| {
        let before = &html[..at];
        CLOSED.iter().all(|name| {
            let opened = before.matches(&format!("<{name}")).count();
            opened <= before.matches(&format!("</{name}")).count()
        })
    })
}

/// A template that leaves a caution out is stopped here, whatever else it shows.
pub(super) fn lost_caution(page: &Page, template: &str, html: &str, guide_file: FileId) -> Option<Finding> {
    let seen = without_comments(html);
    let lost = page.must_show.iter().any(|text| !is_shown(&seen, text));
    lost.then(|| {
        let message = format!("the template '{template}' leaves out a caution of {}", page.path);
        let mend = "show {{ step.cautions | safe }} for every step, and {{ cautions | safe }} for the scheme";
        Finding::new(&CAUTION_LOST, Place::top_of(guide_file), message, mend)
    })
}
