//! HTML that an author writes inside Markdown, taken apart: its tags, with the attributes that it may have.
//!
//! Both who looks up where its links lead and who writes it on a page read it here, so that they count the same links.

use std::cell::RefCell;
use std::collections::BTreeMap;

use html5ever::tendril::StrTendril;
use html5ever::tokenizer::{BufferQueue, StartTag, Token, TokenSink, TokenSinkResult, Tokenizer, TokenizerOpts};

use crate::report::wording;

/// A part of the author's HTML.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Piece {
    /// Words.
    Text(String),
    /// A tag that opens an element, with its attributes but those of links and pictures.
    Open(String, Vec<(String, String)>),
    /// The beginning of a link, and where it is to lead.
    Link(String, Vec<(String, String)>),
    /// A picture: where it stands, and what describes it.
    Picture(String, String),
    /// A tag that closes an element.
    Close(String),
    /// The name of an element that is left out with what is in it.
    LeftOut(String),
}

/// What an element of an author may say about itself. Not among them: `class` and `id`, by which the theme and the
/// scripts know their own elements and which could make a text pass for a caution or hide one; `style`; events; and all
/// that loads something.
const ATTRIBUTES: &[&str] = &[
    "title", "lang", "dir", "colspan", "rowspan", "headers", "scope", "start", "reversed", "value", "datetime", "open",
];

/// Elements that only the program's own HTML has: boxes to tick, and what could lead or load in a way that is not checked.
const NOT_OF_AUTHORS: &[&str] = &["input", "label", "svg", "section", "area", "map"];

/// Elements that take in all that follows as their own, whatever it is, or that load or run something.
const TAKES_IN: &[&str] = &[
    "script",
    "style",
    "template",
    "textarea",
    "title",
    "iframe",
    "noembed",
    "noframes",
    "noscript",
    "object",
    "plaintext",
    "select",
    "xmp",
];

/// The pieces of a text, which need not be whole elements. Comments are left out, and nothing in them is hidden.
pub fn pieces(html: &str) -> Vec<Piece> {
    let tokenizer = Tokenizer::new(Gathered(RefCell::default()), TokenizerOpts::default());
    let input = BufferQueue::default();
    input.push_back(StrTendril::from(html));
    // Only a sink that asks for scripts to be run can interrupt it.
    let _ = tokenizer.feed(&input);
    tokenizer.end();
    without_what_takes_in(tokenizer.sink.0.into_inner())
}

/// Takes out elements that would take in the text behind them: to their end, or where they have none here, only the tag.
fn without_what_takes_in(pieces: Vec<Piece>) -> Vec<Piece> {
    let takes_in =
        |piece: &Piece| matches!(piece, Piece::Open(name, _) | Piece::Close(name) if TAKES_IN.contains(&name.as_str()));
    if !pieces.iter().any(takes_in) {
        return pieces;
    }
    let mut ends: BTreeMap<String, usize> = BTreeMap::new();
    for (at, piece) in pieces.iter().enumerate() {
        if let Piece::Close(name) = piece {
            ends.insert(name.clone(), at);
        }
    }
    let mut kept = Vec::new();
    let mut until: Option<String> = None;
    for (at, piece) in pieces.into_iter().enumerate() {
        match (&until, piece) {
            (Some(name), Piece::Close(closed)) if *name == closed => until = None,
            (Some(_), _) => {}
            (None, Piece::Open(name, _)) if TAKES_IN.contains(&name.as_str()) => {
                until = ends.get(&name).is_some_and(|end| *end > at).then(|| name.clone());
                kept.push(Piece::LeftOut(name));
            }
            (None, Piece::Close(name)) if TAKES_IN.contains(&name.as_str()) => {}
            (None, piece) => kept.push(piece),
        }
    }
    kept
}

struct Gathered(RefCell<Vec<Piece>>);

impl TokenSink for Gathered {
    type Handle = ();

    fn process_token(&self, token: Token, _line: u64) -> TokenSinkResult<()> {
        let piece = match token {
            Token::CharacterTokens(text) => Some(Piece::Text(wording::shown(&text).into_owned())),
            Token::TagToken(tag) => {
                let attributes: Vec<(String, String)> =
                    tag.attrs.iter().map(|one| (one.name.local.to_string(), one.value.to_string())).collect();
                of_tag(&tag.name, tag.kind == StartTag, attributes)
            }
            _ => None,
        };
        self.0.borrow_mut().extend(piece);
        TokenSinkResult::Continue
    }
}

/// The piece of a tag; none for an element that an author does not write.
fn of_tag(name: &str, opens: bool, attributes: Vec<(String, String)>) -> Option<Piece> {
    if !name.chars().all(|c| c.is_ascii_alphanumeric()) || NOT_OF_AUTHORS.contains(&name) {
        return None;
    }
    if !opens {
        return Some(Piece::Close(name.to_owned()));
    }
    let value = |wanted: &str| attributes.iter().find(|(name, _)| name == wanted).map(|(_, value)| value.clone());
    match (name, value("href"), value("src")) {
        ("a", Some(href), _) => Some(Piece::Link(href, plain(attributes))),
        ("img", _, src) => {
            let alt = value("alt").unwrap_or_default();
            Some(Piece::Picture(src.unwrap_or_default(), wording::shown(&alt).into_owned()))
        }
        _ => Some(Piece::Open(name.to_owned(), plain(attributes))),
    }
}

fn plain(attributes: Vec<(String, String)>) -> Vec<(String, String)> {
    let own = attributes.into_iter().filter(|(name, _)| ATTRIBUTES.contains(&name.as_str()));
    own.map(|(name, value)| (name, wording::shown(&value).into_owned())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_keep_only_what_an_author_may_say() {
        let html =
            "<p class=\"caution\" id=\"content\" style=\"x\" onclick='y' title=\"a &quot;b\">1 &lt; 2<!-- c --></p>";
        let expected = [
            Piece::Open("p".to_owned(), vec![("title".to_owned(), "a \"b".to_owned())]),
            Piece::Text("1 < 2".to_owned()),
            Piece::Close("p".to_owned()),
        ];
        let joined: Vec<Piece> = pieces(html).into_iter().fold(Vec::new(), |mut all, piece| {
            match (all.last_mut(), &piece) {
                (Some(Piece::Text(before)), Piece::Text(text)) => before.push_str(text),
                _ => all.push(piece),
            }
            all
        });
        assert_eq!(joined, expected);
    }

    #[test]
    fn an_element_that_takes_in_the_rest_is_left_out_and_the_rest_stays() {
        let left_out = |name: &str| Piece::LeftOut(name.to_owned());
        assert_eq!(pieces("<style>"), [left_out("style")]);
        let text = |text: &str| Piece::Text(text.to_owned());
        let closed = pieces("<p>a<script>b <b>c</b></script>d");
        assert_eq!(closed, [Piece::Open("p".to_owned(), Vec::new()), text("a"), left_out("script"), text("d")]);
        assert_eq!(pieces("</style><template>a"), [left_out("template"), text("a")]);
    }

    #[test]
    fn links_and_pictures_are_told_apart_in_every_spelling() {
        let links = pieces("<A HREF='java&#115;cript:x'><a\nhref=java\tscript:y><a name=z><IMG SRC=a.png ALT='b'>");
        assert!(matches!(&links[0], Piece::Link(href, _) if href == "javascript:x"), "{links:?}");
        assert!(links.contains(&Piece::Open("a".to_owned(), Vec::new())), "{links:?}");
        assert!(links.contains(&Piece::Picture("a.png".to_owned(), "b".to_owned())), "{links:?}");
    }
}
