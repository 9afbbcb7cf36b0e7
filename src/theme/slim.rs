//! Style sheets as they are published: without comments, and without the line breaks and indents of whoever wrote them.

/// The style sheet with the same rules in fewer bytes. What is in quotes, or in an address without quotes, is kept.
pub(super) fn slim(css: &str) -> String {
    let mut out = String::with_capacity(css.len());
    let mut rest = css;
    // Whether what was written last needs no space behind it.
    let mut joins = true;
    while let Some(letter) = rest.chars().next() {
        if let Some(comment) = rest.strip_prefix("/*") {
            rest = comment.split_once("*/").map_or("", |(_, behind)| behind);
            // A comment parts two words, but is no space: 'a/**/.b' is one element.
            let parts = |letter: char| !letter.is_ascii_whitespace() && !"{};,".contains(letter);
            if out.ends_with(parts) && rest.starts_with(parts) && !rest.starts_with("/*") {
                out.push_str("/**/");
            }
            continue;
        }
        let length = match letter {
            '"' | '\'' => quoted(rest, letter),
            'u' if rest.starts_with("url(") => rest.find(')').map_or(rest.len(), |at| at + 1),
            '\\' => letter.len_utf8() + rest[1..].chars().next().map_or(0, char::len_utf8),
            letter if letter.is_ascii_whitespace() => {
                if !joins {
                    out.push(' ');
                }
                joins = true;
                rest = &rest[1..];
                continue;
            }
            letter => {
                if is_mark(letter) && out.ends_with(' ') && !out.ends_with("\\ ") {
                    out.pop();
                }
                letter.len_utf8()
            }
        };
        let (piece, behind) = rest.split_at(length);
        joins = piece.chars().all(is_mark);
        out.push_str(piece);
        rest = behind;
    }
    out
}

/// A letter around which spaces do not count.
fn is_mark(letter: char) -> bool {
    matches!(letter, '{' | '}' | ';' | ',')
}

/// The bytes of a text in quotes at the beginning, with both quotes.
fn quoted(text: &str, quote: char) -> usize {
    let mut escaped = false;
    for (at, letter) in text.char_indices().skip(1) {
        match letter {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            letter if letter == quote => return at + 1,
            _ => {}
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_stay_and_their_spacing_goes() {
        let css = "/* a */\n.a ,\n.b :hover > i {\n  color : red; /* why */\n  margin: calc(1px + 2px) 0;\n}\n@media (width >= 10em) {\n  .c { x: y }\n}\n";
        let slimmed = ".a,.b :hover > i{color : red;margin: calc(1px + 2px) 0;}@media (width >= 10em){.c{x: y}}";
        assert_eq!(slim(css), slimmed);
        assert_eq!(slim(slimmed), slimmed);
    }

    #[test]
    fn what_stands_in_quotes_or_addresses_is_kept() {
        let css = "a::before{content:\"/* \\\" ;  */\"}b{src:url(a/*b*/;c.svg)}c{content:'}  {'}\\{  d{}";
        assert_eq!(slim(css), css.replace("\\{  d", "\\{ d"));
        assert_eq!(slim("a{content:\"never closed"), "a{content:\"never closed");
        assert_eq!(slim("a{}/* never closed"), "a{}");
        assert_eq!(slim("a/* and */.b{margin:0/* */1px}"), "a/**/.b{margin:0/**/1px}");
    }
}
