//! When something may be left out, as a sentence.

use crate::measure::FromText;

/// A sentence that says when a step may be left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct When(pub String);

/// What is no sentence: an author who writes it means that the step is optional.
const ONLY_YES: &[&str] =
    &["true", "yes", "y", "on", "false", "no", "n", "off", "ja", "nein", "oui", "non", "sí", "si", "optional"];

impl FromText for When {
    const EXPECTED: &'static str = "a sentence that says when it may be left out";
    const EXAMPLE: &'static str = "Leave it out on rank and file.";
    const IS_WORDS: bool = true;

    fn from_text(text: &str) -> Result<Self, String> {
        let text = String::from_text(text)?;
        if ONLY_YES.contains(&text.to_lowercase().as_str()) {
            return Err(format!("readers want to know when, as in '{}'", Self::EXAMPLE));
        }
        Ok(Self(text))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_yes_says_nothing_about_when() {
        assert_eq!(When::from_text(" For heroes ").unwrap(), When("For heroes".to_owned()));
        for text in ["true", "Yes", "no", ""] {
            assert!(When::from_text(text).is_err(), "{text}");
        }
    }
}
