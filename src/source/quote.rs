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

/// A text in straight quotes that hold whatever is in it.
pub(crate) fn in_quotes(value: &str) -> String {
    let bare = value.trim_start_matches(['“', '”', '„']).trim_end_matches(['“', '”']);
    let first = bare.chars().next().unwrap_or_default();
    let inner = bare.strip_prefix(first).and_then(|rest| rest.strip_suffix(first));
    let bare = match inner {
        Some(inner) if matches!(first, '"' | '\'') => inner,
        _ => bare,
    };
    if bare.contains(['"', '\\']) { format!("'{}'", bare.replace('\'', "''")) } else { format!("\"{bare}\"") }
}
