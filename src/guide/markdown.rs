//! Which Markdown is written in a guide, and how its headings get their anchors.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use pulldown_cmark::{CodeBlockKind, CowStr, Event, HeadingLevel, OffsetIter, Options, Parser, Tag, TagEnd};
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use crate::report::wording;

/// Tables, footnotes, task lists, strike-through and the quotes and dashes of print.
pub fn options() -> Options {
    Options::ENABLE_TABLES
        | Options::ENABLE_FOOTNOTES
        | Options::ENABLE_TASKLISTS
        | Options::ENABLE_STRIKETHROUGH
        | Options::ENABLE_SMART_PUNCTUATION
}

/// What a guide's Markdown says, as readers are shown it: whatever is [hidden](wording::is_hidden) in its words, its code, its
/// titles and names is a sign for a character that is missing. HTML is as it was written.
pub fn parser(markdown: &str) -> impl Iterator<Item = Event<'_>> {
    Parser::new_ext(markdown, options()).map(shown)
}

/// The same as it was written, with the bytes at which it stands.
pub fn placed(markdown: &str) -> OffsetIter<'_> {
    Parser::new_ext(markdown, options()).into_offset_iter()
}

fn shown(event: Event<'_>) -> Event<'_> {
    match event {
        Event::Text(text) => Event::Text(seen(text)),
        Event::Code(text) => Event::Code(seen(text)),
        Event::FootnoteReference(name) => Event::FootnoteReference(seen(name)),
        Event::Start(Tag::FootnoteDefinition(name)) => Event::Start(Tag::FootnoteDefinition(seen(name))),
        Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(language))) => {
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(seen(language))))
        }
        Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
            Event::Start(Tag::Link { link_type, dest_url, title: seen(title), id: seen(id) })
        }
        Event::Start(Tag::Image { link_type, dest_url, title, id }) => {
            Event::Start(Tag::Image { link_type, dest_url, title: seen(title), id: seen(id) })
        }
        other => other,
    }
}

fn seen(text: CowStr<'_>) -> CowStr<'_> {
    match wording::shown(&text) {
        Cow::Borrowed(_) => text,
        Cow::Owned(shown) => CowStr::from(shown),
    }
}

/// A word or a heading as part of an address: small letters, marks on letters and digits of any script, hyphens between
/// words. How the accents of a letter are stored does not count.
pub fn slug(text: &str) -> String {
    let lower: String = text.to_lowercase().nfc().collect();
    let words = lower.split(|c: char| !c.is_alphanumeric() && !is_combining_mark(c)).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join("-")
}

/// Gives each heading of one text its anchor; a repeated one gets a number.
#[derive(Debug, Default)]
pub struct Anchors {
    taken: BTreeSet<String>,
    counts: BTreeMap<String, usize>,
}

impl Anchors {
    /// The anchor of the next heading.
    pub fn next(&mut self, heading: &str) -> String {
        let base = match slug(heading) {
            empty if empty.is_empty() => "section".to_owned(),
            slug => slug,
        };
        let count = self.counts.entry(base.clone()).or_insert(0);
        loop {
            *count += 1;
            let anchor = if *count == 1 { base.clone() } else { format!("{base}-{count}") };
            if self.taken.insert(anchor.clone()) {
                return anchor;
            }
        }
    }
}

/// A heading of a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Heading {
    /// How deep it is.
    pub level: HeadingLevel,
    /// Its words.
    pub text: String,
    /// Its anchor.
    pub anchor: String,
}

/// All headings of a text, in order.
pub fn headings(markdown: &str) -> Vec<Heading> {
    let mut found = Vec::new();
    let mut anchors = Anchors::default();
    let mut open: Option<(HeadingLevel, String)> = None;
    for event in parser(markdown) {
        match event {
            Event::Start(Tag::Heading { level, .. }) => open = Some((level, String::new())),
            Event::End(TagEnd::Heading(_)) => {
                if let Some((level, text)) = open.take() {
                    let anchor = anchors.next(&text);
                    found.push(Heading { level, text, anchor });
                }
            }
            Event::Text(text) | Event::Code(text) => {
                if let Some((_, words)) = &mut open {
                    words.push_str(&text);
                }
            }
            _ => {}
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_get_anchors_once_each() {
        let found = headings("# Three grips\n\nText\n\n## Ä & `code`\n\n## Three grips\n\n## ?\n");
        let anchors: Vec<&str> = found.iter().map(|heading| heading.anchor.as_str()).collect();
        assert_eq!(anchors, ["three-grips", "ä-code", "three-grips-2", "section"]);
    }
}
