//! Addresses on the web.

use crate::measure::FromText;

/// An `http` or `https` address.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
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
        if host.contains('%')
            || !host.rsplit_once(':').is_none_or(|(_, port)| port.ends_with(']') || port.parse::<u16>().is_ok())
        {
            return Err("its host or its port is none".to_owned());
        }
        if host.contains('@') {
            return Err("there is a name before the host, which readers take for the host".to_owned());
        }
        if text.chars().any(|c| c.is_whitespace() || crate::report::wording::is_hidden(c) || "\"'<>\\^`{|}".contains(c))
        {
            return Err("it has a space, a quote or a bracket in it".to_owned());
        }
        Ok(Self(text.to_owned()))
    }
}

/// The `http` or `https` address of a folder, under which a guide is published: paths are put behind it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct SiteAddress(pub WebAddress);

impl FromText for SiteAddress {
    const EXPECTED: &'static str = WebAddress::EXPECTED;
    const EXAMPLE: &'static str = WebAddress::EXAMPLE;

    fn from_text(text: &str) -> Result<Self, String> {
        let address = WebAddress::from_text(text)?;
        if address.0.contains(['?', '#']) {
            return Err("it has a query or an anchor, and no page can be put after that".to_owned());
        }
        Ok(Self(address))
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
    fn a_site_stands_in_a_folder() {
        assert!(SiteAddress::from_text("http://guides.example:8080/fen").is_ok());
        for text in
            ["https://guides.example/?fen", "https://guides.example/#fen", "https://quill@guides.example/", "data:a"]
        {
            assert!(SiteAddress::from_text(text).is_err(), "{text}");
        }
    }

    #[test]
    fn addresses_are_of_the_web() {
        for text in ["https://guides.example/fen/?a=b#c", "https://guides.example:65535/%20", "http://[::1]/"] {
            assert!(WebAddress::from_text(text).is_ok(), "{text}");
        }
        for text in [
            "guides.example",
            "javascript:alert(1)",
            "https://",
            "https://a.example/\"onload",
            "ftp://a.example",
            "https://guides.example@evil.example/",
            "//guides.example",
            "https:guides.example",
            "https://%00/",
            "https://guides.example:65536/",
            "https://guides.example:http/",
        ] {
            assert!(WebAddress::from_text(text).is_err(), "{text}");
        }
    }
}
