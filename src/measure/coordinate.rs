//! Places in the space of a model.

use super::FromText;

/// A place along one axis of a model's file, in thousandths of a millimetre of the model.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Coordinate(pub i64);

impl Coordinate {
    /// In millimetres.
    pub fn as_millimetres(self) -> f64 {
        self.0 as f64 / 1000.0
    }
}

/// Farther away is no model, in millimetres.
const FARTHEST: f64 = 1_000_000.0;

impl FromText for Coordinate {
    const EXPECTED: &'static str = "a number of millimetres such as '12.5' or '-3'";
    const EXAMPLE: &'static str = "12.5";

    fn from_text(text: &str) -> Result<Self, String> {
        let number = text.trim().trim_end_matches("mm").trim_end().replace(',', ".").parse::<f64>();
        match number {
            Ok(number) if number.abs() <= FARTHEST => {
                #[expect(clippy::cast_possible_truncation, reason = "a thousand million at most")]
                let thousandths = (number * 1000.0).round() as i64;
                Ok(Self(thousandths))
            }
            Ok(_) => Err("that is farther away than any part of a model".to_owned()),
            Err(_) => Err("that is not a number".to_owned()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_may_lie_on_both_sides() {
        assert_eq!(Coordinate::from_text("-3.25"), Ok(Coordinate(-3250)));
        assert_eq!(Coordinate::from_text("12,5 mm").map(Coordinate::as_millimetres), Ok(12.5));
        assert!(Coordinate::from_text("1e12").is_err() && Coordinate::from_text("NaN").is_err());
    }
}
