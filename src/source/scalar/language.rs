//! The code of a language.

use super::id::Id;
use crate::measure::FromText;

/// The code of a language in small letters, as in `de` or `de-at` (BCP 47); `de-AT` and `de_AT` are the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Language(pub String);

impl FromText for Language {
    const EXPECTED: &'static str = "the code of a language";
    const EXAMPLE: &'static str = "en";

    fn from_text(text: &str) -> Result<Self, String> {
        let code = text.trim().to_ascii_lowercase().replace('_', "-");
        let id = Id::from_text(&code).map_err(|_| "write a code such as 'en', 'de' or 'pt-br'".to_owned())?;
        Ok(Self(id.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_is_read_however_it_is_written() {
        for (text, code) in [("de", "de"), ("de-AT", "de-at"), ("pt_BR", "pt-br"), (" EN ", "en")] {
            assert_eq!(Language::from_text(text), Ok(Language(code.to_owned())), "{text}");
        }
        assert!(Language::from_text("Deutsch bitte").is_err());
    }
}
