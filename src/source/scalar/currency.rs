//! The currency of the guide's prices.

use crate::measure::FromText;

/// An ISO 4217 code of three capital letters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Currency(pub String);

impl FromText for Currency {
    const EXPECTED: &'static str = "a currency by its three letters, such as 'EUR'";
    const EXAMPLE: &'static str = "EUR";

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim();
        if text.len() == 3 && text.bytes().all(|byte| byte.is_ascii_uppercase()) {
            Ok(Self(text.to_owned()))
        } else {
            Err("a currency has three capital letters".to_owned())
        }
    }
}
