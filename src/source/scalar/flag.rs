//! Yes or no.

use crate::measure::FromText;

/// `true` or `false`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Flag(pub bool);

impl FromText for Flag {
    const EXPECTED: &'static str = "'true' or 'false'";
    const EXAMPLE: &'static str = "true";
    const CHOICES: &'static [&'static str] = &["true", "false"];

    fn from_text(text: &str) -> Result<Self, String> {
        match text.trim() {
            "true" => Ok(Self(true)),
            "false" => Ok(Self(false)),
            _ => Err("write 'true' or 'false'".to_owned()),
        }
    }
}
