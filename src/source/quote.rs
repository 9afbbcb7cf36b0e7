//! An author's words in a message.

/// An author's text as a message shows it: at most forty characters.
pub(crate) fn shortened(text: &str) -> String {
    const MOST: usize = 40;
    if text.chars().count() <= MOST {
        return text.to_owned();
    }
    text.chars().take(MOST - 1).chain(['…']).collect()
}
