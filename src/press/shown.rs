//! The last look at a page before it is written: whether a reader sees every caution.

use std::borrow::Cow;
use std::sync::LazyLock;

use memchr::memmem;

use crate::page::{Page, lost_style};
use crate::report::{FileId, Finding, Place};
use crate::theme::{CAUTION_LOST, POLICY_LOST};

/// A page without its HTML comments, which no reader sees.
fn without_comments(html: &str) -> Cow<'_, str> {
    if memmem::find(html.as_bytes(), b"<!--").is_none() {
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

/// Whether the content of an element is not shown, or only when asked for.
fn is_closed(name: &str) -> bool {
    matches!(name, "template" | "textarea" | "details" | "noscript" | "select" | "title" | "dialog")
}

/// Whether an element holds nothing, and stands open for ever in HTML.
fn is_empty(name: &str) -> bool {
    matches!(name, "br" | "hr" | "img" | "input" | "link" | "meta" | "wbr" | "source" | "col" | "!DOCTYPE")
}

/// Where a page begins to hide what follows, and where it shows it again: from each place on, whether it is hidden.
fn closed_parts(html: &str) -> Vec<(usize, bool)> {
    let mut open: Vec<(&str, bool)> = Vec::new();
    let mut parts = Vec::new();
    let suspects = suspects(html);
    let mut suspects = suspects.iter().copied().peekable();
    for at in memchr::memchr_iter(b'<', html.as_bytes()) {
        let behind = &html[at + 1..];
        let tag = memchr::memchr(b'>', behind.as_bytes()).map_or(behind, |end| &behind[..end]);
        while suspects.next_if(|place| *place <= at).is_some() {}
        let suspect = suspects.peek().is_some_and(|place| *place <= at + tag.len());
        match tag.strip_prefix('/') {
            Some(name) => {
                if let Some(begun) = open.iter().rposition(|(open, _)| *open == name.trim_end()) {
                    open.truncate(begun);
                }
            }
            None if is_empty(name_of(tag)) || tag.ends_with('/') => {}
            None => {
                let closed = open.last().is_some_and(|(_, closed)| *closed)
                    || is_closed(name_of(tag))
                    || (suspect && is_out_of_sight(tag));
                open.push((name_of(tag), closed));
            }
        }
        let closed = open.last().is_some_and(|(_, closed)| *closed);
        if closed != parts.last().is_some_and(|(_, before)| *before) {
            parts.push((at, closed));
        }
    }
    parts
}

fn name_of(tag: &str) -> &str {
    tag.bytes().position(|letter| letter.is_ascii_whitespace()).map_or(tag, |end| &tag[..end])
}

/// Attributes that keep an element from being seen.
const UNSEEN: [&str; 4] = ["hidden", "inert", "popover", "style"];

/// What looks for them, made ready once for all pages.
static FINDERS: LazyLock<[memmem::Finder<'static>; 4]> = LazyLock::new(|| UNSEEN.map(memmem::Finder::new));

/// Where a page says one of these words: few of its elements do, and the others need no second look.
fn suspects(html: &str) -> Vec<usize> {
    let mut places: Vec<usize> = FINDERS.iter().flat_map(|finder| finder.find_iter(html.as_bytes())).collect();
    places.sort_unstable();
    places
}

/// Whether an element says itself that nobody is to see it.
fn is_out_of_sight(tag: &str) -> bool {
    // What is in quotes is the guide's: a title with the word in it hides nothing.
    let mut names = tag.split('"').step_by(2).flat_map(str::split_ascii_whitespace).skip(1);
    tag.contains(" aria-hidden=\"true\"") || names.any(|name| UNSEEN.contains(&name.trim_end_matches('=')))
}

/// What a browser may do with a page: run and load what the site brings, and nothing else.
const POLICY: &str = "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src 'self'; \
    worker-src 'self'; manifest-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; connect-src 'self'; base-uri 'none'; \
    form-action 'none'\">";

/// A template of which the policy is not the first to be read is stopped here: it holds only for what comes after it.
pub(super) fn lost_policy(template: &str, html: &str, file: FileId) -> Option<Finding> {
    let before = without_comments(html);
    // The page for a lost address brings a style of the program's own, and no other.
    let policy = match template {
        "404.html" => Cow::Owned(POLICY.replace("style-src 'self'", &format!("style-src 'self' {}", lost_style()))),
        _ => Cow::Borrowed(POLICY),
    };
    let place = memmem::find(before.as_bytes(), policy.as_bytes());
    let before = place.and_then(|place| before.get(..place)).map(str::to_lowercase);
    let early =
        |text: &String| ["<script", "<link", "<style", "<body", "<img", "<base"].iter().any(|tag| text.contains(tag));
    let kept = before.is_some_and(|before| !early(&before));
    (!kept).then(|| {
        let message = format!("the template '{template}' does not begin with the policy of the page");
        let mend = "extend sheet.html, or copy its line 'Content-Security-Policy' word for word to the top of the head";
        Finding::new(&POLICY_LOST, Place::top_of(file), message, mend)
    })
}

/// Whether a text is in a page, and not inside an element that keeps it from being seen.
fn is_shown(html: &str, closed: &[(usize, bool)], text: &str) -> bool {
    memmem::find_iter(html.as_bytes(), text.as_bytes()).any(|at| {
        let before = closed.partition_point(|(place, _)| *place < at);
        before.checked_sub(1).and_then(|last| closed.get(last)).is_none_or(|(_, is_closed)| !is_closed)
    })
}

/// A template that leaves a caution out is stopped here, whatever else it shows.
pub(super) fn lost_caution(page: &Page, template: &str, html: &str, file: FileId) -> Option<Finding> {
    if page.must_show.is_empty() {
        return None;
    }
    let seen = without_comments(html);
    let closed = closed_parts(&seen);
    let lost = page.must_show.iter().any(|text| !is_shown(&seen, &closed, text));
    lost.then(|| {
        let message = format!("the template '{template}' leaves out a caution of {}", page.path);
        let mend = "show {{ step.to_do | safe }} and {{ step.cautions | safe }} for every step, and {{ cautions | safe }} for the page";
        Finding::new(&CAUTION_LOST, Place::top_of(file), message, mend)
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

    fn shown(html: &str) -> bool {
        is_shown(html, &closed_parts(html), "CAUTION")
    }

    #[test]
    fn what_is_around_a_caution_may_not_hide_it() {
        for hidden in [
            "<div hidden>CAUTION</div>",
            "<div class=\"a\" style=\"x\"><p>b</p>CAUTION</div>",
            "<details><br>CAUTION</details>",
        ] {
            assert!(!shown(hidden), "{hidden}");
        }
        for seen in [
            "<body data-guide=\"The hidden style\"><p hidden>a</p>CAUTION",
            "<svg aria-hidden=\"true\"><path d=\"M0\"/></svg><input hidden>CAUTION",
            "<details></details><p>CAUTION</p>",
        ] {
            assert!(shown(seen), "{seen}");
        }
    }
}
