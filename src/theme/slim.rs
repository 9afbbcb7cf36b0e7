//! Style sheets as they are published: without comments, and without the line breaks and indents of whoever wrote them.
//! The program's own scripts lose their indents and the comments that have lines of their own; an author's are never touched.

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
                // The last declaration of a rule needs no end of its own.
                if letter == '}' && out.ends_with(';') && !out.ends_with("\\;") {
                    out.pop();
                }
                letter.len_utf8()
            }
        };
        let (piece, behind) = rest.split_at(length);
        // A space behind a colon stands before a value; one before it may part an element from what is in it.
        joins = piece == ":" || piece.chars().all(is_mark);
        out.push_str(piece);
        rest = behind;
    }
    out
}

/// A script of the built-in theme in fewer bytes: none of them has a text over several lines, so that a line is told by
/// its beginning. Line breaks stay, for they end statements.
pub(super) fn script(js: &str) -> String {
    let mut out = String::with_capacity(js.len());
    let mut in_comment = false;
    for line in js.lines().map(str::trim) {
        let begins = line.starts_with("/*");
        if !in_comment && !begins && !line.is_empty() {
            out.push_str(line);
            out.push('\n');
        }
        in_comment = (in_comment || begins) && !line.ends_with("*/");
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
        let slimmed = ".a,.b :hover > i{color :red;margin:calc(1px + 2px) 0}@media (width >= 10em){.c{x:y}}";
        assert_eq!(slim(css), slimmed);
        assert_eq!(slim(slimmed), slimmed);
    }

    #[test]
    fn a_script_loses_indents_and_whole_comments_alone() {
        let js =
            "\"use strict\";\n/* Two\n   lines. */\n{\n  /* One. */\n  a = \"/* kept */\"; /* kept */\n\n  b()\n}\n";
        assert_eq!(script(js), "\"use strict\";\n{\na = \"/* kept */\"; /* kept */\nb()\n}\n");
    }

    #[test]
    fn no_built_in_script_has_a_text_over_several_lines() {
        let scripts =
            super::super::built_in::files().into_iter().filter(|(path, _)| super::super::load::is_our_script(path));
        for (path, bytes) in scripts {
            for line in std::str::from_utf8(bytes).unwrap().lines() {
                let is_whole = line.matches('`').count() % 2 == 0 && !line.ends_with('\\');
                assert!(is_whole, "{path}: {line}");
                assert!(
                    !line.trim_start().starts_with("/*") || line.ends_with("*/") || !line.contains("*/"),
                    "{path}: {line}"
                );
            }
        }
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
