//! The scale of a model, as the trade writes it.

use super::{Fraction, FromText, number_and_unit};

/// How large a model is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// The height of a standing figure in millimetres, as in `28 mm`.
    Height(Fraction),
    /// One to so many, as in `1/35`.
    Ratio(Fraction),
}

impl FromText for Scale {
    const EXPECTED: &'static str = "a scale such as '28 mm' or '1/35'";
    const EXAMPLE: &'static str = "28 mm";

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim();
        if let Some(under) = text.strip_prefix("1/").or_else(|| text.strip_prefix("1:")) {
            let under = Fraction::from_text(under)?;
            return if under.is_zero() { Err("nothing is one to 0".to_owned()) } else { Ok(Self::Ratio(under)) };
        }
        match number_and_unit(text)? {
            (height, "mm") if !height.is_zero() => Ok(Self::Height(height)),
            (_, "mm") => Err("a height is more than 0".to_owned()),
            (_, unit) => Err(format!("'{unit}' is not a unit known here; write 'mm'")),
        }
    }
}

impl std::fmt::Display for Scale {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Height(height) => write!(f, "{height} mm"),
            Self::Ratio(under) => write!(f, "1/{under}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_read() {
        for text in ["28 mm", "1/35", "1/72"] {
            assert_eq!(Scale::from_text(text).unwrap().to_string(), text);
        }
        assert!(Scale::from_text("1/0").is_err());
        assert!(Scale::from_text("big").is_err());
    }
}
