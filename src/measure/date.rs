//! Days of the calendar.

use jiff::civil;

use super::FromText;

/// The years in which somebody may have painted, or will: any other is a slip of the hand.
const YEARS: std::ops::RangeInclusive<i16> = 1900..=2200;

/// A day of the Gregorian calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date(pub civil::Date);

impl FromText for Date {
    const EXPECTED: &'static str = "a date such as '2026-11-02'";
    const EXAMPLE: &'static str = "2026-11-02";

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let parts = text.split('-').map(str::len).collect::<Vec<_>>();
        if parts != [4, 2, 2] {
            return Err("a date has year, month and day".to_owned());
        }
        let day: civil::Date = text.parse().map_err(|_| "there is no such day".to_owned())?;
        if !YEARS.contains(&day.year()) {
            return Err(format!("its year is not between {} and {}", YEARS.start(), YEARS.end()));
        }
        Ok(Self(day))
    }
}

impl std::fmt::Display for Date {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_read() {
        assert_eq!(Date::from_text("2026-11-02").unwrap().to_string(), "2026-11-02");
        assert!(Date::from_text("1900-01-01").is_ok() && Date::from_text("2200-12-31").is_ok());
        for text in ["2026-02-30", "2.11.2026", "tomorrow", "2026-11", "0226-11-02", "2206-11-02", "1899-12-31"] {
            assert!(Date::from_text(text).is_err(), "{text}");
        }
    }
}
