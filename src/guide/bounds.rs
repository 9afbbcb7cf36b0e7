//! How far a text may be nested and how much HTML it may hold, so that no page of it takes time or memory beyond measure.

use std::ops::Range;

use pulldown_cmark::Event;

use super::markdown;

/// How many quotes, lists, emphases and the like may be inside each other.
pub(crate) const DEEPEST: usize = 100;

/// How many tags of HTML a text may have times the pieces that it has with them: what is left open can be repeated in
/// every piece behind it, so the page may grow with their product.
pub(crate) const MOST_HTML: usize = 2_000_000;

/// What a text has too much of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Excess {
    /// Pieces inside each other.
    Depth,
    /// Tags of HTML.
    Html,
}

/// What a text has too much of, if anything, and the bytes at which it is.
pub(crate) fn excess(text: &str) -> Option<(Excess, Range<usize>)> {
    let (mut depth, mut pieces) = (0_usize, 0_usize);
    let (mut tags, mut first_tag) = (0_usize, 0..0);
    for (event, range) in markdown::parser(text).into_offset_iter() {
        match event {
            Event::Start(_) => (depth, pieces) = (depth + 1, pieces + 1),
            Event::End(_) => depth = depth.saturating_sub(1),
            Event::Html(html) | Event::InlineHtml(html) => {
                if tags == 0 {
                    first_tag = range.clone();
                }
                tags += opened(&html);
            }
            _ => {}
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_as_authors_write_it_has_nothing_too_much() {
        let list = (0..20).map(|depth| format!("{}- item\n", "  ".repeat(depth))).collect::<String>();
        let table = "<table>".to_owned() + &"<tr><td>a</td><td>b</td></tr>\n".repeat(300) + "</table>\n";
        let breaks = "a<br>b<img src=x.jpg> c\n\n".repeat(20_000);
        for text in [list, table, breaks, "word\n\n".repeat(100_000)] {
            assert_eq!(excess(&text), None, "{}", &text[..60]);
        }
    }

    #[test]
    fn what_is_too_much_is_told_where_it_is() {
        let kind = |text: &str| excess(text).map(|(kind, range)| (kind, range.start));
        assert_eq!(kind(&("x\n\n".to_owned() + &"> ".repeat(101) + "y")), Some((Excess::Depth, 203)));
        assert_eq!(kind(&format!("x\n\n{}", "<div>".repeat(2000))), Some((Excess::Html, 3)));
        assert_eq!(kind(&format!("x <B>\n\n{}", "y\n\n<p>\n\n".repeat(2000))), Some((Excess::Html, 2)));
    }
}
