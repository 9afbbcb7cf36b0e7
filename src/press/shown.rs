//! The last look at a page before it is written: whether a reader sees every caution.

use crate::page::Page;
use crate::report::{FileId, Finding, Place};
use crate::theme::{CAUTION_LOST, POLICY_LOST};

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

/// What a browser may do with a page: run and load what the site brings, and nothing else.
const POLICY: &str = "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src 'self'; \
    worker-src 'self'; manifest-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; base-uri 'none'; \
    form-action 'none'\">";

/// A template of which the policy is not the first to be read is stopped here: it holds only for what comes behind it.
pub(super) fn lost_policy(template: &str, html: &str, guide_file: FileId) -> Option<Finding> {
    let before = without_comments(html);
    let before = before.split_once(POLICY).map(|(before, _)| before.to_lowercase());
    let early =
        |text: &String| ["<script", "<link", "<style", "<body", "<img", "<base"].iter().any(|tag| text.contains(tag));
    let kept = before.is_some_and(|before| !early(&before));
    (!kept).then(|| {
        let message = format!("the template '{template}' does not begin with the policy of the page");
        let mend = "extend sheet.html, or copy its line 'Content-Security-Policy' word for word to the top of the head";
        Finding::new(&POLICY_LOST, Place::top_of(guide_file), message, mend)
    })
}

/// Whether a text stands in a page, and not inside an element that keeps it from being seen.
fn is_shown(html: &str, text: &str) -> bool {
    html.match_indices(text).any(|(at, _)| {
        let before = &html[..at];
        CLOSED.iter().all(|name| {
            let opened = before.matches(&format!("<{name}")).count();
            opened <= before.matches(&format!("</{name}")).count()
        }) && !around(before).iter().any(|tag| is_out_of_sight(tag))
    })
}

/// The tags of the elements that are open at the end of a piece of HTML.
fn around(before: &str) -> Vec<&str> {
    let mut open: Vec<&str> = Vec::new();
    for piece in before.split('<').skip(1) {
        let tag = piece.split_once('>').map_or(piece, |(tag, _)| tag);
        match tag.strip_prefix('/') {
            Some(name) => {
                if let Some(at) = open.iter().rposition(|tag| name_of(tag) == name.trim_end()) {
                    open.truncate(at);
                }
            }
            None => open.push(tag),
        }
    }
    open
}

fn name_of(tag: &str) -> &str {
    tag.split_ascii_whitespace().next().unwrap_or_default()
}

/// Whether an element says itself that nobody is to see it. One that stays open for ever, such as a line break, holds
/// nothing; scripts and styles of its own are stopped by the policy.
fn is_out_of_sight(tag: &str) -> bool {
    let empty = ["br", "hr", "img", "input", "link", "meta", "wbr", "source", "col", "path", "!DOCTYPE"];
    let told = |name: &str| {
        let mut rest = tag;
        std::iter::from_fn(|| {
            let (before, behind) = rest.split_once(name)?;
            rest = behind;
            Some(
                before.ends_with(char::is_whitespace) && behind.starts_with(|c: char| c == '=' || c.is_whitespace())
                    || (before.ends_with(char::is_whitespace) && behind.is_empty()),
            )
        })
        .any(|told| told)
    };
    !empty.contains(&name_of(tag))
        && (["hidden", "inert", "popover", "style"].iter().any(|name| told(name))
            || tag.contains("aria-hidden=\"true\"")
            || name_of(tag) == "dialog")
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
