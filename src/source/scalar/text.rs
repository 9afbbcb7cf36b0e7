//! Plain text.

use crate::measure::FromText;

impl FromText for String {
    const EXPECTED: &'static str = "a text";
    const EXAMPLE: &'static str = "Some words";

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim();
        if text.chars().any(crate::report::wording::is_hidden) {
            return Err("a character that can't be seen stands in it".to_owned());
        }
        if text.is_empty() { Err("it is empty".to_owned()) } else { Ok(text.to_owned()) }
    }
}
