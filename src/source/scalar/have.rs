//! What is already in the cupboard.

use crate::measure::{Fraction, FromText, Millilitres};

/// An amount of a paint that the author has.
#[derive(Debug, Clone, Copy, PartialEq, Hash)]
pub enum Have {
    /// So many millilitres.
    Volume(Millilitres),
    /// So many full bottles.
    Bottles(Fraction),
    /// So many drops.
    Drops(Fraction),
}

impl FromText for Have {
    const EXPECTED: &'static str = "an amount such as '12 ml', '1 bottle' or '40 drops'";
    const EXAMPLE: &'static str = "12 ml";

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim();
        for (word, make) in [
            ("bottles", Self::Bottles as fn(Fraction) -> Self),
            ("bottle", Self::Bottles),
            ("drops", Self::Drops),
            ("drop", Self::Drops),
        ] {
            if let Some(number) = text.strip_suffix(word) {
                return Fraction::from_text(number).map(make);
            }
        }
        Millilitres::from_text(text).map(Self::Volume)
    }
}
