//! The ids by which files name each other's things.

use crate::door::is_device;
use crate::measure::FromText;

/// An id: small letters, digits and single hyphens, as in `bog-iron`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Id(pub String);

/// Longer ids make file names that some systems refuse.
const LONGEST: usize = 80;

impl FromText for Id {
    const EXPECTED: &'static str = "an id of small letters, digits and hyphens";
    const EXAMPLE: &'static str = "bog-iron";

    fn meant(text: &str) -> Option<Self> {
        Self::from_text(&crate::measure::hyphenated(text)).ok()
    }

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim();
        if text.len() > LONGEST {
            return Err(format!("an id has at most {LONGEST} letters"));
        }
        let plain = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit();
        if is_device(text) {
            return Err(format!(
                "'{text}' is the name of a device on some systems, and no file can be called so there"
            ));
        }
        if !text.is_empty() && text.split('-').all(|word| !word.is_empty() && word.bytes().all(plain)) {
            Ok(Self(text.to_owned()))
        } else {
            let plain = crate::measure::hyphenated(text);
            let hint = if plain.is_empty() { String::new() } else { format!(", as in '{plain}'") };
            Err(format!("an id has small letters, digits and single hyphens{hint}"))
        }
    }
}

impl AsRef<str> for Id {
    fn as_ref(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for Id {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_plain() {
        for text in ["bog-iron", "30-pale-gold", "a", "con-gold"] {
            assert!(Id::from_text(text).is_ok(), "{text}");
        }
        assert_eq!(Id::meant("Ärmel"), Some(Id("aermel".to_owned())));
        assert!(Id::meant("漢字").is_none());
        for text in ["", "Bog", "bog_iron", "-a", "a--b", "../x", "é", "con", "com1"] {
            assert!(Id::from_text(text).is_err(), "{text}");
        }
    }
}
