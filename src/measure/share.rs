//! Shares of a model's surface.

use super::{Fraction, FromText, number_and_unit};

/// A share between 0 and 100 %, kept exactly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Share(Fraction);

impl Share {
    /// So many per cent.
    pub fn percent(percent: u64) -> Self {
        Self(Fraction::new(percent, 100))
    }

    /// As a fraction of one.
    pub fn as_fraction(self) -> Fraction {
        self.0
    }

    /// In per cent.
    pub fn as_percent(self) -> f64 {
        self.0.as_f64() * 100.0
    }
}

impl std::iter::Sum for Share {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        Self(all.map(|share| share.0).sum())
    }
}

impl FromText for Share {
    const EXPECTED: &'static str = "a share such as '45%'";
    const EXAMPLE: &'static str = "45%";

    fn from_text(text: &str) -> Result<Self, String> {
        let (number, unit) = number_and_unit(text)?;
        if unit != "%" {
            return Err("a share ends with a per cent sign".to_owned());
        }
        if number > Fraction::new(100, 1) {
            return Err("a share is at most 100%".to_owned());
        }
        Ok(Self(number / 100))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_add_up_exactly() {
        let third = Share::from_text("33.3%").unwrap();
        let rest = Share::from_text("33.4%").unwrap();
        let sum: Share = [third, third, rest].into_iter().sum();
        assert_eq!(sum, Share::percent(100));
        assert!(Share::from_text("120%").is_err());
        assert!(Share::from_text("45").is_err());
    }
}
