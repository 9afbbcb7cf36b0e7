//! Prices.

use std::str::FromStr;

use rust_decimal::Decimal;

use super::FromText;

/// A price in the guide's currency.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(pub Decimal);

impl FromText for Money {
    const EXPECTED: &'static str = "a price such as '2.80', without the currency";
    const EXAMPLE: &'static str = "2.80";

    fn from_text(text: &str) -> Result<Self, String> {
        super::Fraction::from_text(text)?;
        Decimal::from_str(text.trim()).map(Self).map_err(|_| "that is not a plain number".to_owned())
    }
}

impl std::fmt::Display for Money {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:.2}", self.0)
    }
}
