//! Lengths: the scale of a model as the trade writes it, depths, and the size of a base.

use super::{Fraction, FromText, factor_of, number_and_unit};

/// A length in millimetres.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Millimetres(pub f64);

/// Millimetres in each unit; an inch is 25.4 mm exactly.
const UNITS: &[(&str, f64)] = &[("mm", 1.0), ("cm", 10.0), ("in", 25.4)];

impl FromText for Millimetres {
    const EXPECTED: &'static str = "a length such as '4 mm' or '0.5 cm'";
    const EXAMPLE: &'static str = "4 mm";

    fn from_text(text: &str) -> Result<Self, String> {
        let (number, unit) = number_and_unit(text)?;
        if number.is_zero() {
            return Err("a length is more than 0".to_owned());
        }
        Ok(Self(number.as_f64() * factor_of(unit, UNITS)?))
    }
}

/// What a model stands on: a round or oval base by its width and depth, or nothing that is painted.
#[derive(Debug, Clone, Copy, PartialEq, Hash)]
pub enum BaseSize {
    /// It has no base.
    None,
    /// So wide and so deep; round where both are the same.
    Oval(Millimetres, Millimetres),
}

impl FromText for BaseSize {
    const EXPECTED: &'static str = "the size of a base such as '32 mm' or '60x35 mm', or 'none'";
    const EXAMPLE: &'static str = "32 mm";

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim();
        if text == "none" {
            return Ok(Self::None);
        }
        let Some((wide, deep)) = text.split_once(['x', '×']) else {
            let size = Millimetres::from_text(text)?;
            return Ok(Self::Oval(size, size));
        };
        let deep = Millimetres::from_text(deep)?;
        let unit = text.trim_start_matches(|c: char| !c.is_alphabetic() || c == 'x').trim();
        let has_unit = wide.trim().ends_with(|c: char| c.is_ascii_alphabetic());
        let wide = if has_unit { wide.trim().to_owned() } else { format!("{} {unit}", wide.trim()) };
        Ok(Self::Oval(Millimetres::from_text(&wide)?, deep))
    }
}

/// How large a model is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
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
            (height, "") if !height.is_zero() => {
                Err(format!("the unit is missing: write '{height} mm' for a height, or '1/{height}' for a ratio"))
            }
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
        assert!(Scale::from_text("28").unwrap_err().contains("write '28 mm' for a height, or '1/28'"));
    }

    #[test]
    fn bases_and_depths_read() {
        let oval = |wide, deep| Ok(BaseSize::Oval(Millimetres(wide), Millimetres(deep)));
        assert_eq!(BaseSize::from_text("32 mm"), oval(32.0, 32.0));
        assert_eq!(BaseSize::from_text("60x35 mm"), oval(60.0, 35.0));
        assert_eq!(BaseSize::from_text("6 cm × 35mm"), oval(60.0, 35.0));
        assert_eq!(BaseSize::from_text("none"), Ok(BaseSize::None));
        assert!(BaseSize::from_text("0 mm").is_err() && BaseSize::from_text("big").is_err());
        assert_eq!(Millimetres::from_text("0.4 cm"), Ok(Millimetres(4.0)));
    }
}
