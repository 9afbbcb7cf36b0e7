//! Names of things that are elsewhere in the guide.

use crate::measure::FromText;

/// A name by which something else is meant, as an author wrote it: only who looks it up knows whether it is one.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Mention(pub String);

/// Longer than any id.
const LONGEST: usize = 80;

impl FromText for Mention {
    const EXPECTED: &'static str = "an id of small letters, digits and hyphens";
    const EXAMPLE: &'static str = "bog-iron";

    fn from_text(text: &str) -> Result<Self, String> {
        let text = String::from_text(text)?;
        if text.len() > LONGEST { Err(format!("an id has at most {LONGEST} letters")) } else { Ok(Self(text)) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn any_words_can_be_meant_for_a_name() {
        assert_eq!(Mention::from_text(" Cloak skin "), Ok(Mention("Cloak skin".to_owned())));
        for text in ["", "a\u{202e}b", &"a".repeat(LONGEST + 1)] {
            assert!(Mention::from_text(text).is_err(), "{text}");
        }
    }
}
