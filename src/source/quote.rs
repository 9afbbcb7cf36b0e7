//! An author's words in a message.

/// An author's text as a message shows it: at most forty characters.
pub(crate) fn shortened(text: &str) -> String {
    const MOST: usize = 40;
    if text.chars().count() <= MOST {
        return text.to_owned();
    }
    text.chars().take(MOST - 1).chain(['…']).collect()
}

/// The longest line that is written out in a mend, in characters.
pub(crate) const SHOWN: usize = 60;

/// The mend that writes a value, after its key where that is known; a long one is not written out.
pub(crate) fn write(key: Option<&str>, quoted: &str) -> String {
    let whole = key.map_or_else(|| quoted.to_owned(), |key| format!("{key}: {quoted}"));
    if whole.chars().count() > SHOWN { "put quotes around the whole text".to_owned() } else { format!("write {whole}") }
}

/// A text in straight quotes that hold whatever is in it; a pair of quotes around all of it is left out.
pub(crate) fn in_quotes(value: &str) -> String {
    let bare = without_pair(value).unwrap_or(value);
    if bare.contains(['"', '\\']) { format!("'{}'", bare.replace('\'', "''")) } else { format!("\"{bare}\"") }
}

/// What is within a pair of quotes around a whole text, if there is such a pair. Of curly quotes there may be no others.
fn without_pair(value: &str) -> Option<&str> {
    const CURLY: [char; 3] = ['“', '”', '„'];
    let first = value.chars().next()?;
    let last = value.chars().next_back()?;
    let inner = value.strip_prefix(first)?.strip_suffix(last)?;
    let is_straight = first == last && matches!(first, '"' | '\'');
    let is_curly = |sign: char| CURLY.contains(&sign);
    let is_mixed = (is_curly(first) && (is_curly(last) || last == '"')) || (first == '"' && is_curly(last));
    (is_straight || is_mixed && !inner.contains(CURLY)).then_some(inner)
}

/// A text as one entry of a list in brackets: in quotes, where YAML would take it for something else without them.
pub(crate) fn as_entry(text: &str) -> String {
    let begins = |sign: char| "&*!|>%@`#\"'".contains(sign);
    let is_split =
        text.contains(": ") || text.ends_with(':') || text.contains(" #") || text.contains(['[', ']', '{', '}', ',']);
    if is_split
        || matches!(text, "-" | "?")
        || text.starts_with("- ")
        || text.starts_with("? ")
        || text.starts_with(begins)
    {
        in_quotes(text)
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_pair_around_the_whole_text_is_left_out() {
        for (text, quoted) in [
            ("“Nitrile” gloves #5", "\"“Nitrile” gloves #5\""),
            ("gloves of “Nitrile”", "\"gloves of “Nitrile”\""),
            ("“Nitrile” or “Latex”", "\"“Nitrile” or “Latex”\""),
            ("“Nitrile gloves”", "\"Nitrile gloves\""),
            ("„Nitrile gloves“", "\"Nitrile gloves\""),
            ("\"Gloves\"", "\"Gloves\""),
            ("a \"b\" c", "'a \"b\" c'"),
        ] {
            assert_eq!(in_quotes(text), quoted, "{text}");
        }
    }

    #[test]
    fn an_entry_has_quotes_where_it_needs_them() {
        for (text, entry) in [
            ("first", "first"),
            ("green: light", "\"green: light\""),
            ("first #2", "\"first #2\""),
            ("1,5 mm", "\"1,5 mm\""),
            ("- a", "\"- a\""),
            ("-a", "-a"),
            ("!a", "\"!a\""),
        ] {
            assert_eq!(as_entry(text), entry);
        }
    }
}
