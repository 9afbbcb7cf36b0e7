//! The first sentence of a text, for what has room for no more.

use pulldown_cmark::{Event, Tag, TagEnd};

use super::markdown::parser;

/// The first sentence of a text, without its marks: of its first paragraph or entry of a list, never of a heading, a table
/// or a listing.
pub fn first_sentence(markdown: &str) -> Option<String> {
    let paragraph = first_paragraph(markdown);
    let whole = paragraph.trim();
    let end = whole.char_indices().find(|(at, letter)| ends(whole, *at, *letter));
    let sentence = end.map_or(whole, |(at, letter)| {
        let behind = &whole[at + letter.len_utf8()..];
        // Brackets and quotes that close behind the full stop belong to the sentence.
        let closing = behind.find(|letter: char| !is_closing(letter)).unwrap_or(behind.len());
        &whole[..at + letter.len_utf8() + closing]
    });
    Some(sentence.to_owned()).filter(|sentence| !sentence.is_empty())
}

fn first_paragraph(markdown: &str) -> String {
    let mut text = String::new();
    let mut skipped = 0_usize;
    for event in parser(markdown) {
        match event {
            Event::Start(tag) if is_skipped(&tag) => skipped += 1,
            Event::End(
                TagEnd::Heading(_)
                | TagEnd::CodeBlock
                | TagEnd::Table
                | TagEnd::Image
                | TagEnd::HtmlBlock
                | TagEnd::FootnoteDefinition,
            ) => skipped = skipped.saturating_sub(1),
            _ if skipped > 0 => {}
            Event::Text(words) | Event::Code(words) => text.push_str(&words),
            Event::SoftBreak | Event::HardBreak => text.push(' '),
            Event::End(TagEnd::Paragraph | TagEnd::Item) if !text.trim().is_empty() => break,
            _ => {}
        }
    }
    text
}

fn is_skipped(tag: &Tag<'_>) -> bool {
    matches!(
        tag,
        Tag::Heading { .. }
            | Tag::CodeBlock(_)
            | Tag::Table(_)
            | Tag::Image { .. }
            | Tag::HtmlBlock
            | Tag::FootnoteDefinition(_)
    )
}

/// Whether a sentence ends with this letter: behind it comes a space and something that begins another one, and before
/// it a word and not a letter or a number alone.
fn ends(text: &str, at: usize, letter: char) -> bool {
    if !matches!(letter, '.' | '!' | '?' | '…') {
        return false;
    }
    let behind = text[at + letter.len_utf8()..].trim_start_matches(is_closing);
    let next = behind.trim_start();
    let begins = next.chars().next().is_none_or(|first| !first.is_lowercase() && !first.is_numeric());
    let word = text[..at].rsplit(char::is_whitespace).next().unwrap_or_default();
    let short = letter == '.' && (word.chars().count() < 2 || word.chars().all(char::is_numeric));
    (next.is_empty() || behind.len() > next.len()) && begins && !short
}

fn is_closing(letter: char) -> bool {
    matches!(letter, '"' | '\'' | ')' | ']' | '”' | '’' | '»' | '“')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_sentence_is_found_whatever_stands_before_it() {
        for (markdown, sentence) in [
            ("One mix for *the rank*. Write the label.", "One mix for the rank."),
            (
                "## Before\n\n| a | b |\n| --- | --- |\n| c. | d |\n\nShake it [well](10-a.md)!\nThen wait.",
                "Shake it well!",
            ),
            ("- Wash it. Dry it.\n- Prime it.", "Wash it."),
            ("Nach der 3. Schicht warten. Dann weiter.", "Nach der 3. Schicht warten."),
            ("Use z. B. Wasser. Dann warten.", "Use z. B. Wasser."),
            ("He said “no.” Then wait.", "He said “no.”"),
            ("Spray at 1.5 bar. Stop.", "Spray at 1.5 bar."),
            ("Without an end", "Without an end"),
            ("```text\nLOT amber\n```\n\nStir[^1] it.\n\n[^1]: Long.", "Stir it."),
        ] {
            assert_eq!(first_sentence(markdown).as_deref(), Some(sentence));
        }
        assert_eq!(first_sentence("# Only a heading\n"), None);
    }
}
