//! Addresses on the web.

use crate::measure::FromText;

/// An `http` or `https` address.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct WebAddress(pub String);

impl FromText for WebAddress {
    const EXPECTED: &'static str = "a web address such as 'https://guides.example/fen/'";
    const EXAMPLE: &'static str = "https://guides.example/fen/";

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let rest = text
            .strip_prefix("https://")
            .or_else(|| text.strip_prefix("http://"))
            .ok_or("it begins with 'https://' or 'http://'")?;
        let host = rest.split(['/', '?', '#']).next().unwrap_or_default();
        if host.is_empty() {
            return Err("there is no host in it".to_owned());
        }
        if text.chars().any(|c| c.is_whitespace() || crate::report::wording::is_hidden(c) || "\"'<>\\^`{|}".contains(c))
        {
            return Err("a space, a quote or a bracket stands in it".to_owned());
        }
        Ok(Self(text.to_owned()))
    }
}

impl WebAddress {
    /// The address with a slash at its end, so that paths can be put behind it.
    pub fn as_folder(&self) -> String {
        format!("{}/", self.0.trim_end_matches('/'))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_are_of_the_web() {
        assert!(WebAddress::from_text("https://guides.example/fen/").is_ok());
        for text in
            ["guides.example", "javascript:alert(1)", "https://", "https://a.example/\"onload", "ftp://a.example"]
        {
            assert!(WebAddress::from_text(text).is_err(), "{text}");
        }
    }
}
