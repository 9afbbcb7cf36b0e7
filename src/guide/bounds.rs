//! How far a text may be nested and how much HTML it may hold, so that no page of it takes time or memory beyond measure.

use std::ops::Range;

use pulldown_cmark::{Event, Tag};

use super::markdown;

/// How many quotes, lists, emphases and the like may be inside each other.
pub(crate) const DEEPEST: usize = 100;

/// How many tags of HTML a text may have times the pieces that it has with them: what is left open can be repeated in
/// every piece behind it, so the page may grow with their product.
pub(crate) const MOST_HTML: usize = 2_000_000;

/// How many attributes a tag may have: each is compared with those before it.
pub(crate) const MOST_ATTRIBUTES: usize = 256;

/// What a text has too much of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Excess {
    /// Pieces inside each other.
    Depth,
    /// Tags of HTML.
    Html,
    /// What one tag of HTML says of its element.
    Attributes,
}

/// What a text has too much of, if anything, and the bytes at which it is.
pub(crate) fn excess(text: &str) -> Option<(Excess, Range<usize>)> {
    let (mut depth, mut pieces) = (0_usize, 0_usize);
    let (mut tags, mut first_tag) = (0_usize, 0..0);
    let mut tag = OpenTag::default();
    for (event, range) in markdown::placed(text) {
        match &event {
            Event::Start(_) => (depth, pieces) = (depth + 1, pieces + 1),
            Event::End(_) => depth = depth.saturating_sub(1),
            Event::Html(html) | Event::InlineHtml(html) => {
                if tags == 0 {
                    first_tag = range.clone();
                }
                tags += opened(html);
            }
            _ => {}
        }
        match &event {
            // A tag in a block may go on in the next line.
            Event::Html(html) => tag.read(html),
            Event::InlineHtml(html) => {
                tag = OpenTag::default();
                tag.read(html);
            }
            Event::Start(Tag::HtmlBlock) => tag = OpenTag::default(),
            _ => {}
        }
        if tag.most > MOST_ATTRIBUTES {
            return Some((Excess::Attributes, range));
        }
        if depth > DEEPEST {
            return Some((Excess::Depth, range));
        }
    }
    (tags.saturating_mul(tags + pieces) > MOST_HTML).then_some((Excess::Html, first_tag))
}

/// How many tags are opened that can hold something: all but breaks, rules and pictures. What only looks like a tag, as in
/// a comment, counts too.
fn opened(html: &str) -> usize {
    let names = html.split('<').skip(1).map(|tag| {
        let end = tag.find(|c: char| !c.is_ascii_alphanumeric()).unwrap_or(tag.len());
        &tag[..end]
    });
    let holds = |name: &&str| {
        name.starts_with(|c: char| c.is_ascii_alphabetic())
            && !["br", "hr", "img"].iter().any(|empty| name.eq_ignore_ascii_case(empty))
    };
    names.filter(holds).count()
}

/// Counts the attributes of tags, as browsers tell them apart, in HTML that may come in pieces.
#[derive(Debug, Default)]
struct OpenTag {
    state: In,
    /// So many has the tag that is open.
    attributes: usize,
    /// The most that a tag has.
    most: usize,
}

/// What a letter of HTML is in or behind; what ends each is as in the tokenizer of the HTML Standard.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
enum In {
    #[default]
    Text,
    /// Behind `<`.
    Less,
    /// Behind `</`.
    Slash,
    /// Behind `<!`, and one hyphen more.
    Mark(bool),
    /// What is no comment and taken for one, up to `>`.
    Declared,
    /// Behind `<!--`, and one hyphen more.
    Begun(bool),
    /// In a comment, behind so many of the signs that end it.
    Comment(u8),
    /// The name of an element.
    Element,
    /// Between attributes.
    Gap,
    /// The name of an attribute.
    Name,
    /// Behind the name of an attribute.
    BehindName,
    /// Before the value of one.
    BeforeValue,
    /// A value without quotes.
    Bare,
    /// A value in such quotes.
    Quoted(u8),
}

impl OpenTag {
    fn read(&mut self, html: &str) {
        for letter in html.bytes() {
            let state = self.state.then(letter);
            match state {
                In::Element if self.state != In::Element => self.attributes = 0,
                In::Name if self.state != In::Name => self.attributes += 1,
                _ => {}
            }
            self.most = self.most.max(self.attributes);
            self.state = state;
        }
    }
}

impl In {
    #[expect(
        clippy::match_same_arms,
        reason = "they are asked in this order, and what is between two of them is another thing"
    )]
    fn then(self, letter: u8) -> Self {
        let is_space = matches!(letter, b' ' | b'\t' | b'\n' | b'\r' | 0x0c);
        match (self, letter) {
            (Self::Text | Self::Less, b'<') => Self::Less,
            (Self::Less | Self::Slash, letter) if letter.is_ascii_alphabetic() => Self::Element,
            (Self::Less, b'/') => Self::Slash,
            (Self::Less, b'!') => Self::Mark(false),
            (Self::Less, b'?') => Self::Declared,
            (Self::Text | Self::Less, _) => Self::Text,
            (Self::Quoted(quote), _) if letter == quote => Self::Gap,
            (Self::Quoted(quote), _) => Self::Quoted(quote),
            (Self::Comment(2), b'!') => Self::Comment(3),
            (Self::Comment(0 | 1), b'>') => Self::Comment(0),
            (_, b'>') => Self::Text,
            (Self::Comment(0 | 3), b'-') => Self::Comment(1),
            (Self::Begun(true) | Self::Comment(_), b'-') => Self::Comment(2),
            (Self::Begun(false), b'-') => Self::Begun(true),
            (Self::Begun(_) | Self::Comment(_), _) => Self::Comment(0),
            (Self::Mark(false), b'-') => Self::Mark(true),
            (Self::Mark(true), b'-') => Self::Begun(false),
            (Self::Mark(_) | Self::Declared | Self::Slash, _) => Self::Declared,
            (Self::BeforeValue, b'"' | b'\'') => Self::Quoted(letter),
            (Self::BeforeValue, _) if is_space => Self::BeforeValue,
            (Self::Bare, _) if is_space => Self::Gap,
            (Self::BeforeValue | Self::Bare, _) => Self::Bare,
            (Self::Name | Self::BehindName, b'=') => Self::BeforeValue,
            (Self::Name | Self::BehindName, _) if is_space => Self::BehindName,
            (Self::Element | Self::Gap, _) if is_space => Self::Gap,
            (Self::Element | Self::Gap | Self::Name | Self::BehindName, b'/') => Self::Gap,
            (Self::Element, _) => Self::Element,
            (Self::Gap | Self::Name | Self::BehindName, _) => Self::Name,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_as_authors_write_it_has_nothing_too_much() {
        let list = (0..20).map(|depth| format!("{}- item\n", "  ".repeat(depth))).collect::<String>();
        let table = "<table>".to_owned() + &"<tr><td>a</td><td>b</td></tr>\n".repeat(300) + "</table>\n";
        let breaks = "a<br>b<img src=x.jpg> c\n\n".repeat(20_000);
        let words = format!("<p>{}</p>\n", "a b=c 'd' ".repeat(300));
        let quoted = format!("<p title=\"{}\">\n", "a b=c ".repeat(300));
        let comment = format!("<!-- <p {} -->\n", "a ".repeat(300));
        for text in [words, quoted, comment] {
            assert_eq!(excess(&text), None, "{}", &text[..20]);
        }
        for text in [list, table, breaks, "word\n\n".repeat(100_000)] {
            assert_eq!(excess(&text), None, "{}", &text[..60]);
        }
    }

    #[test]
    fn what_is_too_much_is_told_where_it_is() {
        let kind = |text: &str| excess(text).map(|(kind, range)| (kind, range.start));
        assert_eq!(kind(&("x\n\n".to_owned() + &"> ".repeat(101) + "y")), Some((Excess::Depth, 203)));
        assert_eq!(kind(&format!("x\n\n{}", "<div>".repeat(2000))), Some((Excess::Html, 3)));
        let many = |between: &str| (0..300).map(|at| format!("{between}a{at}")).collect::<String>();
        for html in [
            format!("<p{}>", many(" ")),
            format!("<p{}", many("\n")),
            format!("<p{}>", many("/")),
            format!("<p z=\">\"{}>", many("=\"'\"")),
            format!("<p z='>' y=x>a</p><p{}>", many(" \t")),
            format!("<!-- <p z=\" --><p{}>", many(" ")),
            format!("<!--><p{}>", many(" ")),
            format!("<!---><p{}>", many(" ")),
            format!("<!-- a --!><p{}>", many(" ")),
            format!("<!--!> <p z=\" --><p{}>", many(" ")),
            format!("<!---!> <p z=\" --><p{}>", many(" ")),
            format!("<!x <!-- ><p{}>", many(" ")),
            format!("<!x z=\"><p{}>", many(" ")),
            format!("</ z=\"><p{}>", many(" ")),
            format!("<p>a < b z=\"</p><p{}>", many(" ")),
        ] {
            assert_eq!(kind(&format!("<div>\n{html}")).map(|(kind, _)| kind), Some(Excess::Attributes), "{html}");
        }
        assert_eq!(kind(&format!("x <p{}>", many(" "))), Some((Excess::Attributes, 2)));
        assert_eq!(kind(&format!("x <B>\n\n{}", "y\n\n<p>\n\n".repeat(2000))), Some((Excess::Html, 2)));
    }
}
