//! Times of the day and days of the week, for painting evenings.

use super::FromText;

/// A time of the day, in minutes since midnight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Clock(pub u16);

impl FromText for Clock {
    const EXPECTED: &'static str = "a time of the day such as \"19:00\", in quotes";
    const EXAMPLE: &'static str = "\"19:00\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let error = || "hours from 0 to 23 and minutes from 00 to 59 have a colon between them".to_owned();
        let (hours, minutes) = text.trim().split_once(':').ok_or_else(error)?;
        let digits = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
        if !digits(hours) || !digits(minutes) || minutes.len() != 2 {
            return Err(error());
        }
        match (hours.parse::<u16>(), minutes.parse::<u16>()) {
            (Ok(hours @ 0..=23), Ok(minutes @ 0..=59)) => Ok(Self(hours * 60 + minutes)),
            _ => Err(error()),
        }
    }
}

impl std::fmt::Display for Clock {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}:{:02}", self.0 / 60, self.0 % 60)
    }
}

/// A day of the week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Weekday(pub usize);

/// The names, Monday first.
const NAMES: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

impl Weekday {
    /// The three letters an author writes.
    pub fn name(self) -> &'static str {
        NAMES.get(self.0).copied().unwrap_or("mon")
    }
}

impl FromText for Weekday {
    const EXPECTED: &'static str = "a day of the week: mon, tue, wed, thu, fri, sat or sun";
    const EXAMPLE: &'static str = "tue";

    fn meant(text: &str) -> Option<Self> {
        let text = text.trim().to_lowercase();
        NAMES.iter().position(|name| text.starts_with(name)).map(Self)
    }

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim().to_lowercase();
        if let Some(list) = several(&text) {
            return Err(format!("these are several days; as a list: {list}"));
        }
        NAMES.iter().position(|name| *name == text).map(Self).ok_or_else(|| match Self::meant(&text) {
            Some(day) => format!("did you mean '{}'?", day.name()),
            None => crate::report::wording::did_you_mean(&text, "a day", &NAMES),
        })
    }
}

/// The list of the days that a text names: one after the other, as in `tue thu`, or from one to another, as in `mon-fri`.
fn several(text: &str) -> Option<String> {
    let is_between = |sign: char| sign.is_whitespace() || matches!(sign, ',' | '/' | '&' | '+' | '-' | '–');
    let words = text.split(is_between).filter(|word| !matches!(*word, "" | "and" | "to"));
    let days: Vec<usize> = words.map(|word| Weekday::meant(word).map(|day| day.0)).collect::<Option<_>>()?;
    let is_range = text.contains(['-', '–']) || text.contains(" to ");
    let days = match days.as_slice() {
        [] | [_] => return None,
        [from, to] if is_range => {
            let count = (to + NAMES.len() - from) % NAMES.len() + 1;
            (0..count).map(|after| (from + after) % NAMES.len()).collect()
        }
        _ if is_range => return None,
        _ => days,
    };
    let names: Vec<&str> = days.iter().map(|day| Weekday(*day).name()).collect();
    Some(format!("[{}]", names.join(", ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clocks_and_days_read() {
        assert_eq!(Clock::from_text("19:00").unwrap().to_string(), "19:00");
        for text in ["24:00", "7 pm", "19", "19:5", "+1:00"] {
            assert!(Clock::from_text(text).is_err(), "{text}");
        }
        assert_eq!(Weekday::from_text("tue").unwrap().name(), "tue");
        for (text, list) in [
            ("tue thu", "[tue, thu]"),
            ("Tue and Thursday", "[tue, thu]"),
            ("mon-fri", "[mon, tue, wed, thu, fri]"),
            ("sat – mon", "[sat, sun, mon]"),
        ] {
            assert_eq!(Weekday::from_text(text).unwrap_err(), format!("these are several days; as a list: {list}"));
        }
        for text in ["tues", "Tuesday"] {
            assert_eq!(Weekday::from_text(text).unwrap_err(), "did you mean 'tue'?");
        }
    }
}
