//! The temperature of the room.

use super::FromText;

/// A temperature in degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Celsius(pub f64);

impl FromText for Celsius {
    const EXPECTED: &'static str = "a temperature such as '20 C' or '68 F'";
    const EXAMPLE: &'static str = "20 C";

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let (sign, digits) = text.strip_prefix('-').map_or((1.0, text), |rest| (-1.0, rest));
        let (number, unit) = super::number_and_unit(digits)?;
        let degrees = sign * number.as_f64();
        let celsius = match unit.trim_start_matches('°') {
            "C" => degrees,
            "F" => (degrees - 32.0) / 1.8,
            "" => return Err("the unit is missing: write 'C' or 'F'".to_owned()),
            other => return Err(format!("'{other}' is not a unit known here; write 'C' or 'F'")),
        };
        if !(-20.0..=60.0).contains(&celsius) {
            return Err("nobody paints at that temperature: it lies outside -20 C to 60 C".to_owned());
        }
        Ok(Self(celsius))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn temperatures_read() {
        assert_eq!(Celsius::from_text("20 C"), Ok(Celsius(20.0)));
        assert_eq!(Celsius::from_text("68 °F"), Ok(Celsius(20.0)));
        assert_eq!(Celsius::from_text("-5 C"), Ok(Celsius(-5.0)));
        assert!(Celsius::from_text("200 C").is_err());
        assert_eq!(Celsius::from_text("293").unwrap_err(), "the unit is missing: write 'C' or 'F'");
    }
}
