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
            return Err(otherwise(text).unwrap_or_else(|| "a date has year, month and day".to_owned()));
        }
        let day: civil::Date = text.parse().map_err(|_| "there is no such day".to_owned())?;
        if !YEARS.contains(&day.year()) {
            return Err(format!("its year is not between {} and {}", YEARS.start(), YEARS.end()));
        }
        Ok(Self(day))
    }
}

/// What a date means that is written as it is elsewhere: `2027-1-12`, `12.1.2027`, `20270112`; both days where it can be two.
fn otherwise(text: &str) -> Option<String> {
    let signs = ['-', '.', '/'];
    let sign = text.chars().find(|sign| signs.contains(sign));
    let parts: Vec<&str> = match sign {
        Some(sign) => text.split(sign).map(str::trim).collect(),
        None => vec![text.get(..4)?, text.get(4..6)?, text.get(6..)?],
    };
    let [first, second, third] = parts.as_slice() else { return None };
    let is_number = |part: &&str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    if !parts.iter().all(|part| is_number(part) && part.len() <= 4) || (sign.is_none() && third.len() != 2) {
        return None;
    }
    let day = |year: &str, month: &str, day: &str| {
        let day = civil::Date::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?).ok()?;
        YEARS.contains(&day.year()).then_some(Date(day))
    };
    let days = if first.len() == 4 {
        [day(first, second, third), None]
    } else if third.len() != 4 {
        [None, None]
    } else if sign == Some('.') {
        // With points the day comes first everywhere.
        [day(third, second, first), None]
    } else {
        [day(third, second, first), day(third, first, second)]
    };
    match days.as_slice() {
        [Some(one), Some(other)] if one != other => Some(format!("did you mean '{one}' or '{other}'?")),
        [Some(one), _] | [None, Some(one)] => Some(format!("did you mean '{one}'?")),
        _ => None,
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
    fn a_date_as_it_is_written_elsewhere_gets_its_own_mend() {
        for (text, says) in [
            ("2027-1-12", "did you mean '2027-01-12'?"),
            ("2027/01/12", "did you mean '2027-01-12'?"),
            ("12.1.2027", "did you mean '2027-01-12'?"),
            ("20270112", "did you mean '2027-01-12'?"),
            ("01/12/2027", "did you mean '2027-12-01' or '2027-01-12'?"),
            ("13/01/2027", "did you mean '2027-01-13'?"),
            ("01-31-2027", "did you mean '2027-01-31'?"),
            ("31.02.2027", "a date has year, month and day"),
            ("2027-123-01", "a date has year, month and day"),
            ("2027/1/115", "a date has year, month and day"),
            ("1.200.2027", "a date has year, month and day"),
            ("2027-9999-9999", "a date has year, month and day"),
            ("2027-0-0", "a date has year, month and day"),
            ("12.1.0227", "a date has year, month and day"),
            ("12.1.27", "a date has year, month and day"),
            ("2027-01", "a date has year, month and day"),
            ("été 2027", "a date has year, month and day"),
            ("2027", "a date has year, month and day"),
        ] {
            assert_eq!(Date::from_text(text).unwrap_err(), says, "{text}");
        }
    }

    #[test]
    fn dates_read() {
        assert_eq!(Date::from_text("2026-11-02").unwrap().to_string(), "2026-11-02");
        assert!(Date::from_text("1900-01-01").is_ok() && Date::from_text("2200-12-31").is_ok());
        for text in ["2026-02-30", "2.11.2026", "tomorrow", "2026-11", "0226-11-02", "2206-11-02", "1899-12-31"] {
            assert!(Date::from_text(text).is_err(), "{text}");
        }
    }
}
