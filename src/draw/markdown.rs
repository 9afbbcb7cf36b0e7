//! Markdown as its author wrote it, marked by the same parser that makes the pages: what is a heading there is one here.

use std::ops::Range;

use pulldown_cmark::{Event, Tag};

use super::marked::Marked;
use crate::guide::markdown::placed;

/// The class of a part of the text that a parser's event stands for.
fn class(event: &Event<'_>) -> Option<&'static str> {
    match event {
        Event::Start(Tag::Heading { .. }) => Some("code-heading"),
        Event::Start(Tag::Link { .. } | Tag::Image { .. }) => Some("code-link"),
        Event::Start(Tag::Emphasis | Tag::Strong) => Some("code-strong"),
        Event::Start(Tag::CodeBlock(_)) | Event::Code(_) => Some("code-string"),
        Event::Start(Tag::HtmlBlock) | Event::InlineHtml(_) => Some("code-key"),
        Event::TaskListMarker(_) | Event::FootnoteReference(_) | Event::Rule => Some("code-word"),
        _ => None,
    }
}

/// The text as HTML, with its parts in elements of their classes; the innermost one holds.
pub(super) fn marked(text: &str) -> String {
    let events = placed(text);
    let parts = events.filter_map(|(event, range)| Some((class(&event)?, range)));
    let mut out = Marked::default();
    let mut open: Vec<(&'static str, usize)> = Vec::new();
    let mut at = 0;
    for (class, Range { start, end }) in parts {
        close(text, start, &mut at, &mut open, &mut out);
        put(text, at, start, &open, &mut out);
        at = at.max(start);
        open.push((class, end));
    }
    close(text, text.len(), &mut at, &mut open, &mut out);
    put(text, at, text.len(), &open, &mut out);
    out.finish()
}

/// Writes up to the end of every part that ends before a place.
fn close(text: &str, before: usize, at: &mut usize, open: &mut Vec<(&'static str, usize)>, out: &mut Marked) {
    while let Some((_, end)) = open.last().copied().filter(|(_, end)| *end <= before) {
        put(text, *at, end, open, out);
        *at = (*at).max(end);
        open.pop();
    }
}

fn put(text: &str, from: usize, to: usize, open: &[(&'static str, usize)], out: &mut Marked) {
    out.put(text.get(from..to).unwrap_or_default(), open.last().map(|(class, _)| *class));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_part_has_its_class_and_the_innermost_holds() {
        let cases = [
            (
                "# A *b* c\n",
                "<span class=\"code-heading\"># A </span><span class=\"code-strong\">*b*</span><span class=\"code-heading\"> c\n</span>",
            ),
            ("[x](paint:y) z", "<span class=\"code-link\">[x](paint:y)</span> z"),
            ("a `1 < 2` b", "a <span class=\"code-string\">`1 &lt; 2`</span> b"),
            ("plain & simple", "plain &amp; simple"),
            ("", ""),
        ];
        for (text, wanted) in cases {
            assert_eq!(marked(text), wanted, "{text}");
        }
    }

    proptest::proptest! {
        #[test]
        fn no_letter_is_lost(text in "[ -~\\n\u{e4}]{0,200}") {
            let html = marked(&text);
            let bare = regex::Regex::new("<[^>]*>").unwrap().replace_all(&html, "").into_owned();
            let read = bare.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
            proptest::prop_assert_eq!(read, text);
        }
    }
}
