//! Surface areas of models.

use super::{FromText, factor_of, number_and_unit};

/// An area in square centimetres.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct SquareCentimetres(pub f64);

/// Square centimetres in each unit; an inch is 2.54 cm exactly.
const UNITS: &[(&str, f64)] =
    &[("cm2", 1.0), ("cm²", 1.0), ("mm2", 0.01), ("mm²", 0.01), ("in2", 6.4516), ("in²", 6.4516)];

impl FromText for SquareCentimetres {
    const EXPECTED: &'static str = "an area such as '32 cm2' or '5 in2'";
    const EXAMPLE: &'static str = "32 cm2";

    fn from_text(text: &str) -> Result<Self, String> {
        let (number, unit) = number_and_unit(text)?;
        if number.is_zero() {
            return Err("an area is more than 0".to_owned());
        }
        Ok(Self(number.as_f64() * factor_of(unit, UNITS)?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_read() {
        assert_eq!(SquareCentimetres::from_text("32 cm2"), Ok(SquareCentimetres(32.0)));
        assert_eq!(SquareCentimetres::from_text("5 in2"), Ok(SquareCentimetres(32.258)));
        assert!(SquareCentimetres::from_text("5 m").is_err());
    }
}
