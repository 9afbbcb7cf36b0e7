//! Hazard and precautionary statement codes.

use crate::measure::FromText;

/// A statement code of the GHS as it is in a product's safety data sheet, such as `H226`, `EUH066` or `P301+P310`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct HazardCode(pub String);

impl FromText for HazardCode {
    const EXPECTED: &'static str = "a statement code from the safety data sheet, such as 'H226'";
    const EXAMPLE: &'static str = "H226";

    fn from_text(text: &str) -> Result<Self, String> {
        let text: String = text.split_whitespace().collect();
        if text.split('+').all(is_statement) {
            Ok(Self(text))
        } else {
            Err("a code is H, P or EUH with three digits".to_owned())
        }
    }
}

/// One code: letters, three digits, and up to three letters behind, as in `H361fd`.
fn is_statement(code: &str) -> bool {
    let Some(rest) = ["EUH", "H", "P"].iter().find_map(|letters| code.strip_prefix(letters)) else {
        return false;
    };
    let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
    digits == 3 && rest.len() <= 6 && rest[digits..].bytes().all(|byte| byte.is_ascii_alphabetic())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_read() {
        for text in ["H226", "EUH066", "P301+P310", "P301 + P310", "H361fd"] {
            assert!(HazardCode::from_text(text).is_ok(), "{text}");
        }
        for text in ["226", "H22", "H2266", "X226", "P301+", "Hé26"] {
            assert!(HazardCode::from_text(text).is_err(), "{text}");
        }
    }
}
