//! An author's text as a terminal may show it: whatever would move the cursor, colour the screen, turn the
//! writing round or stand there unseen is shown as a visible stand-in, one column wide for one character.

/// The text with stand-ins; a tab stays, because only the printer of source lines knows how wide it makes one.
pub(crate) fn visible(text: &str) -> String {
    text.chars().map(stand_in).collect()
}

/// The text for a place that holds a single line: tabs and line breaks get stand-ins too, and what is longer
/// than `most` characters ends in `…`.
pub fn visible_line(text: &str, most: usize) -> String {
    let mut shown: String = text.chars().take(most).map(|c| stand_in(if c == '\t' { ' ' } else { c })).collect();
    if text.chars().nth(most).is_some() {
        shown.push('…');
    }
    shown
}

fn stand_in(c: char) -> char {
    match c {
        '\t' => c,
        // Unicode has a picture of each of the first 32 control characters, in the same order.
        '\u{0}'..='\u{1f}' => char::from_u32(0x2400 + u32::from(c)).unwrap_or(char::REPLACEMENT_CHARACTER),
        '\u{7f}' => '\u{2421}',
        _ if c.is_control() || is_unseen(c) => char::REPLACEMENT_CHARACTER,
        _ => c,
    }
}

/// Characters without a look of their own that change the direction of the writing, break lines or hide in a
/// name. The two joiners (U+200C and U+200D) are not among them: some scripts can't be written without them.
fn is_unseen(c: char) -> bool {
    matches!(c,
        '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{fffe}' | '\u{ffff}' | '\u{e0000}'..='\u{e007f}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_unseen_character_becomes_one_visible_one() {
        assert_eq!(visible("a\u{1b}[31m\u{7}\r\n\0\u{7f}"), "a␛[31m␇␍␊␀␡");
        assert_eq!(visible("\u{9b}2J \u{202e}dlog\u{2066} \u{200b}\u{feff}\u{2028}"), "�2J �dlog� ���");
        let hidden = "\u{ad}\u{61c}\u{85}\u{200f}\u{2069}\u{fffe}\u{e0041}";
        assert_eq!(visible(hidden).chars().count(), hidden.chars().count());
        assert!(visible(hidden).chars().all(|c| c == '\u{fffd}'));
    }

    #[test]
    fn ordinary_writing_stays_as_it_is() {
        for text in ["Größe: 2 µm", "金の縁", "می‌خواهم", "👩‍🎨 paints", "one\ttwo"] {
            assert_eq!(visible(text), text);
        }
    }

    #[test]
    fn a_single_line_stays_single_and_short() {
        assert_eq!(visible_line("a\tb\nc", 10), "a b␊c");
        assert_eq!(visible_line("abcdef", 6), "abcdef");
        assert_eq!(visible_line("abcdefg", 6), "abcdef…");
    }
}
