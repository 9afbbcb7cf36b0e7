//! Plain numbers: counts of coats and models, and the author's own figures.

use super::{Fraction, FromText};

/// A whole number from 1 up to a hundred thousand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Count(pub u32);

/// More than this of anything is probably a typing mistake.
const MOST: u32 = 100_000;

impl FromText for Count {
    const EXPECTED: &'static str = "a whole number from 1 up";
    const EXAMPLE: &'static str = "5";

    fn from_text(text: &str) -> Result<Self, String> {
        match text.trim().parse::<u32>() {
            Ok(0) => Err("it must be 1 or more".to_owned()),
            Ok(number) if number > MOST => Err(format!("more than {MOST} is probably a typing mistake")),
            Ok(number) => Ok(Self(number)),
            Err(_) => Err(not_a_count(text.trim())),
        }
    }
}

/// Why a text is no whole number from 1 up.
fn not_a_count(text: &str) -> String {
    let is_whole = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    if is_whole(text) {
        format!("more than {MOST} is probably a typing mistake")
    } else if text.strip_prefix(['-', '−']).is_some_and(is_whole) {
        "it must be 1 or more".to_owned()
    } else {
        "that is not a whole number".to_owned()
    }
}

/// By how much something is made larger or smaller: a number above 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Factor(pub Fraction);

impl FromText for Factor {
    const EXPECTED: &'static str = "a number above 0";
    const EXAMPLE: &'static str = "25.4";

    fn from_text(text: &str) -> Result<Self, String> {
        let factor = Fraction::from_text(text)?;
        if factor == Fraction::ZERO { Err("it must be above 0".to_owned()) } else { Ok(Self(factor)) }
    }
}

/// A number that is not negative.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Number(pub Fraction);

impl FromText for Number {
    const EXPECTED: &'static str = Fraction::EXPECTED;
    const EXAMPLE: &'static str = Fraction::EXAMPLE;

    fn from_text(text: &str) -> Result<Self, String> {
        Fraction::from_text(text).map(Self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn why_a_count_is_none_is_said_as_it_is() {
        for (text, says) in [
            ("99999999999999999999", "more than 100000"),
            ("-1", "1 or more"),
            ("0", "1 or more"),
            ("2.5", "not a whole number"),
            ("two", "not a whole number"),
        ] {
            assert!(Count::from_text(text).unwrap_err().contains(says), "{text}");
        }
    }

    #[test]
    fn a_factor_is_above_nought() {
        assert!(Factor::from_text("0.001").is_ok() && Number::from_text("0").is_ok());
        for text in ["0", "0.0", "0/1", "-1"] {
            assert!(Factor::from_text(text).is_err(), "{text}");
        }
    }
}
