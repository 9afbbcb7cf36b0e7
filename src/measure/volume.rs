//! Volumes of paint.

use super::{FromText, factor_of, number_and_unit};

/// A volume in millilitres.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Millilitres(pub f64);

/// Millilitres in each unit; the fluid ounce is the US customary one, 29.5735295625 ml (NIST Handbook 44, appendix C).
const UNITS: &[(&str, f64)] = &[("ml", 1.0), ("cl", 10.0), ("l", 1000.0), ("fl oz", 29.573_529_562_5)];

impl FromText for Millilitres {
    const EXPECTED: &'static str = "a volume such as '17 ml' or '0.5 fl oz'";
    const EXAMPLE: &'static str = "17 ml";

    fn from_text(text: &str) -> Result<Self, String> {
        let (number, unit) = number_and_unit(text)?;
        if number.is_zero() {
            return Err("a volume is more than 0".to_owned());
        }
        Ok(Self(number.as_f64() * factor_of(unit, UNITS)?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn volumes_read() {
        assert_eq!(Millilitres::from_text("17 ml"), Ok(Millilitres(17.0)));
        let ounce = Millilitres::from_text("0.5 fl oz").unwrap();
        assert!((ounce.0 - 14.786_764_781_25).abs() < 1e-9);
        assert_eq!(Millilitres::from_text("17 mls").unwrap_err(), "'mls' is not a unit known here; did you mean 'ml'?");
        assert!(Millilitres::from_text("0 ml").is_err());
    }
}
