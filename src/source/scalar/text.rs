//! Plain text, on one line.

use crate::measure::FromText;

/// The most letters of a text on one line. Longer ones belong into the text of a file.
const LONGEST: usize = 2000;

impl FromText for String {
    const EXPECTED: &'static str = "a text";
    const EXAMPLE: &'static str = "Some words";
    const IS_WORDS: bool = true;

    fn from_text(text: &str) -> Result<Self, String> {
        // A title is put into lines of a calendar, of a table, of what a terminal shows: a line break in it would be
        // a line that the author wrote in the program's name, and a carriage return could write over a caution.
        let pieces = text.split(['\n', '\r', '\t']).map(str::trim).filter(|piece| !piece.is_empty());
        let text = pieces.collect::<Vec<_>>().join(" ");
        if text.chars().any(crate::report::wording::is_hidden) {
            return Err("it has a character that can't be seen".to_owned());
        }
        if text.chars().nth(LONGEST).is_some() {
            return Err(format!("it is longer than {LONGEST} letters"));
        }
        if text.is_empty() {
            return Err("it is empty".to_owned());
        }
        if crate::report::wording::is_blank(&text) {
            return Err("there is nothing in it that can be seen".to_owned());
        }
        Ok(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_stays_on_one_line() {
        assert_eq!(String::from_text(" a\r\nEND:VEVENT\r b\n\n\tc  d ").unwrap(), "a END:VEVENT b c  d");
        assert!(String::from_text(" \n\t ").is_err());
        assert!(String::from_text(&"é".repeat(LONGEST)).is_ok());
        assert!(String::from_text(&"é".repeat(LONGEST + 1)).is_err());
        for hidden in ["a\u{1b}[2J", "a\u{202e}b", "a\u{2028}b", "a\u{0}"] {
            assert!(String::from_text(hidden).is_err(), "{hidden:?}");
        }
        for blank in ["\u{200b}\u{200d}\u{2060}", "\u{3164} \u{ad}\u{115f}", "\u{2800}", "\u{fe0f}"] {
            assert!(String::from_text(blank).is_err(), "{blank:?}");
        }
        assert!(String::from_text("\u{2060}a").is_ok());
    }
}
