//! YAML as its author wrote it, marked by the same scanner that reads it.

use granit_parser::{ScalarStyle, Scanner, StrInput, TokenType};

use super::marked::Marked;

/// The class of a piece of the text that a token stands for.
fn class(token: &TokenType<'_>, is_key: bool) -> Option<&'static str> {
    match token {
        TokenType::Scalar(..) if is_key => Some("code-key"),
        TokenType::Scalar(ScalarStyle::Plain, text) => Some(plain(text)),
        TokenType::Scalar(..) => Some("code-string"),
        TokenType::Alias(_)
        | TokenType::Anchor(_)
        | TokenType::Tag(..)
        | TokenType::DocumentStart
        | TokenType::DocumentEnd => Some("code-word"),
        _ => None,
    }
}

/// The class of a value without quotes: a number, a yes or no, or words.
fn plain(text: &str) -> &'static str {
    let is_number = text.starts_with(|c: char| c.is_ascii_digit()) && text.parse::<f64>().is_ok();
    if is_number || ["true", "false", "null", "~"].contains(&text) { "code-number" } else { "code-string" }
}

/// The text as HTML, with its parts in elements of their classes; from a fault on, it is plain.
pub(super) fn marked(text: &str) -> String {
    let mut out = Marked::default();
    let mut at = 0;
    let mut is_key = false;
    for token in Scanner::new(StrInput::new(text)).map_while(Result::ok) {
        match token.token_type() {
            TokenType::Key => is_key = true,
            TokenType::Value => is_key = false,
            _ => {}
        }
        let Some(class) = class(token.token_type(), is_key) else { continue };
        let Some(range) = token.span().byte_range().filter(|range| at <= range.start && range.start < range.end) else {
            continue;
        };
        let (Some(between), Some(own)) = (text.get(at..range.start), text.get(range.clone())) else { continue };
        put_between(between, &mut out);
        out.put(own, Some(class));
        at = range.end;
    }
    put_between(text.get(at..).unwrap_or_default(), &mut out);
    out.finish()
}

/// What is between two tokens: white space, punctuation and comments.
fn put_between(text: &str, out: &mut Marked) {
    for line in text.split_inclusive('\n') {
        let (before, comment) = line.split_at(line.find('#').unwrap_or(line.len()));
        out.put(before, None);
        out.put(comment, Some("code-comment"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is marked with which class, in the order of the text.
    fn parts(text: &str) -> Vec<(String, String)> {
        let pieces = regex::Regex::new("<span class=\"code-([a-z]+)\">([^<]*)</span>").unwrap();
        let html = marked(text);
        pieces.captures_iter(&html).map(|found| (found[1].to_owned(), found[2].trim().to_owned())).collect()
    }

    #[test]
    fn keys_values_numbers_and_comments_are_told_apart() {
        let found =
            parts("---\ntitle: Pale gold # a note\ncoats: 2\nwith: \"a: b\"\npaints: [{use: bog}, &x y]\n# end\n---\n");
        let wanted = [
            ("word", "---"),
            ("key", "title"),
            ("string", "Pale gold"),
            ("comment", "# a note"),
            ("key", "coats"),
            ("number", "2"),
            ("key", "with"),
            ("string", "\"a: b\""),
            ("key", "paints"),
            ("key", "use"),
            ("string", "bog"),
            ("word", "&amp;x"),
            ("string", "y"),
            ("comment", "# end"),
            ("word", "---"),
        ];
        let found: Vec<(&str, &str)> = found.iter().map(|(class, text)| (class.as_str(), text.as_str())).collect();
        assert_eq!(found, wanted);
    }

    #[test]
    fn behind_a_fault_the_rest_is_plain_and_whole() {
        assert!(marked("a: [1\nb: }\n\"x").ends_with("\"x"));
    }

    proptest::proptest! {
        #[test]
        fn no_letter_is_lost(text in "[ -~\\n\u{e4}]{0,200}") {
            let bare = regex::Regex::new("<[^>]*>").unwrap().replace_all(&marked(&text), "").into_owned();
            let read = bare.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
            proptest::prop_assert_eq!(read, text);
        }
    }
}
