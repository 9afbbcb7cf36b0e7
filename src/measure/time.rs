//! Times: how long a coat dries, how long a hand is busy.

use super::{Fraction, FromText, factor_of, number_and_unit};

/// A length of time in whole seconds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Time(u32);

const UNITS: &[(&str, u32)] = &[("s", 1), ("min", 60), ("h", 3600), ("d", 86400)];

/// The longest time that is taken for one: two years; more is probably a typing mistake.
const LONGEST: f64 = 2.0 * 365.0 * 86400.0;

impl Time {
    /// A time of so many seconds.
    pub const fn seconds(seconds: u32) -> Self {
        Self(seconds)
    }

    /// A time of so many minutes.
    pub const fn from_minutes(minutes: u32) -> Self {
        Self(minutes.saturating_mul(60))
    }

    /// In seconds.
    pub const fn as_seconds(self) -> u32 {
        self.0
    }

    /// In minutes.
    pub fn as_minutes(self) -> f64 {
        f64::from(self.0) / 60.0
    }

    /// So many times this time; it saturates.
    #[must_use]
    pub const fn times(self, count: u32) -> Self {
        Self(self.0.saturating_mul(count))
    }
}

impl std::fmt::Display for Time {
    /// As authors write it: `1 h 30 min`, `12 h`, `2 d`; days only where it is whole days and more than one.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let days = if self.0 >= 2 * 86400 && self.0.is_multiple_of(86400) { self.0 / 86400 } else { 0 };
        let rest = self.0 - days * 86400;
        let parts = [(days, "d"), (rest / 3600, "h"), (rest / 60 % 60, "min"), (rest % 60, "s")];
        let shown: Vec<String> =
            parts.iter().filter(|(count, _)| *count > 0).map(|(count, unit)| format!("{count} {unit}")).collect();
        f.write_str(if shown.is_empty() { "0 min".to_owned() } else { shown.join(" ") }.as_str())
    }
}

impl std::ops::Add for Time {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl std::iter::Sum for Time {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), |sum, one| sum + one)
    }
}

impl FromText for Time {
    const EXPECTED: &'static str = "a time such as '90 s', '20 min', '1 h 30 min' or '2 d'";
    const EXAMPLE: &'static str = "20 min";

    fn from_text(text: &str) -> Result<Self, String> {
        if let Some(why) = otherwise(text.trim()) {
            return Err(why);
        }
        let mut seconds = 0.0;
        let mut last_factor = u32::MAX;
        for piece in pieces(text) {
            let (number, unit) = number_and_unit(piece)?;
            let factor = factor_of(unit, UNITS).map_err(|why| meant(text, unit).unwrap_or(why))?;
            if factor >= last_factor {
                return Err("the units go from large to small, each once".to_owned());
            }
            last_factor = factor;
            seconds += number.as_f64() * f64::from(factor);
        }
        if last_factor == u32::MAX {
            return Err("it is empty".to_owned());
        }
        if seconds > LONGEST {
            return Err("it is longer than two years".to_owned());
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "checked above to lie in 0 ..= LONGEST"
        )]
        Ok(Self(seconds.round() as u32))
    }
}

/// What a time is that is written as clocks show it, with strokes for minutes or seconds, or as a range.
fn otherwise(text: &str) -> Option<String> {
    if let Some((number, unit)) = with_stroke(text) {
        return Some(format!("did you mean '{number} {unit}'?"));
    }
    let number = |text: &str| text.parse::<u32>().ok().filter(|_| text.len() <= 4);
    if let Some((hours, minutes)) = text.split_once(':')
        && let (Some(hours), Some(minutes)) = (number(hours), number(minutes))
    {
        let time = Time::from_minutes(hours.saturating_mul(60).saturating_add(minutes));
        return Some(format!("a colon is for a time of the day; did you mean '{time}'?"));
    }
    let (from, to) = text.split_once(['-', '–']).filter(|(_, to)| !to.contains(['-', '–']))?;
    let unit = to.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.' || c == ' ').trim();
    let first = if from.trim().bytes().all(|byte| byte.is_ascii_digit() || byte == b'.') {
        format!("{} {unit}", from.trim())
    } else {
        from.trim().to_owned()
    };
    let is_number = |text: &str| Fraction::from_text(text).is_ok();
    if is_number(from) && is_number(to) {
        let (from, to) = (from.trim(), to.trim());
        return Some(format!("this is a range; take one of the two, with a unit, as in '{from} min' or '{to} min'"));
    }
    let (first, second) = (in_known_units(&first)?, in_known_units(to)?);
    Some(format!("this is a range; take one of the two: '{first}' or '{second}'"))
}

/// The number and the unit of a time such as `30'` or `90"`.
fn with_stroke(text: &str) -> Option<(&str, &'static str)> {
    let stroke = |strokes: &[&str]| strokes.iter().find_map(|stroke| text.strip_suffix(stroke)).map(str::trim);
    let seconds = stroke(&["''", "\"", "″", "”"]).map(|number| (number, "s"));
    let found = seconds.or_else(|| stroke(&["'", "′", "’"]).map(|number| (number, "min")));
    found.filter(|(number, _)| Fraction::from_text(number).is_ok())
}

/// A time with the units that are known here, if it is one, or one with a unit as it is called elsewhere.
fn in_known_units(text: &str) -> Option<String> {
    let text = text.trim();
    if Time::from_text(text).is_ok() {
        return Some(text.to_owned());
    }
    let (number, unit) = number_and_unit(text).ok()?;
    Some(match called(unit)? {
        WEEK => format!("{} d", number * Fraction::new(7, 1)),
        known => format!("{number} {known}"),
    })
}

/// The unit that another name of it means.
fn called(unit: &str) -> Option<&'static str> {
    let small = unit.to_lowercase();
    CALLED.iter().find(|(_, names)| names.contains(&small.as_str())).map(|(known, _)| *known)
}

/// A time that has weeks in it, written with days.
fn in_days(text: &str) -> Option<String> {
    let mut days = Fraction::ZERO;
    let mut behind = Vec::new();
    for piece in pieces(text) {
        let (number, unit) = number_and_unit(piece).ok()?;
        match called(unit).unwrap_or(unit) {
            WEEK => days = days + number * Fraction::new(7, 1),
            "d" => days = days + number,
            known => behind.push(format!("{number} {known}")),
        }
    }
    behind.insert(0, format!("{days} d"));
    Some(behind.join(" "))
}

/// The mend for a unit as it is called elsewhere; weeks are days here.
fn meant(text: &str, unit: &str) -> Option<String> {
    let known = called(unit)?;
    let unit = format!("'{unit}' is not a unit known here");
    if known == WEEK {
        return Some(format!("{unit}; write '{}'", in_days(text)?));
    }
    Some(format!("{unit}; did you mean '{known}'?"))
}

/// What is seven days, and no unit here.
const WEEK: &str = "week";

/// The units as painters call them, each by the one that is known here.
const CALLED: &[(&str, &[&str])] = &[
    ("s", &["sec", "secs", "second", "seconds", "sek", "sekunde", "sekunden", "seconde", "secondes", "segundos"]),
    ("min", &["m", "mn", "mins", "minute", "minutes", "minuten", "minuto", "minutos"]),
    ("h", &["hr", "hrs", "hour", "hours", "std", "std.", "stunde", "stunden", "heure", "heures", "hora", "horas"]),
    ("d", &["day", "days", "tag", "tage", "jour", "jours", "día", "días", "dia", "dias"]),
    (WEEK, &["w", "wk", "wks", "week", "weeks", "woche", "wochen", "semaine", "semaines", "semana", "semanas"]),
];

/// `1 h 30 min` in pieces `1 h` and `30 min`: a new piece starts at a digit after a letter.
fn pieces(text: &str) -> Vec<&str> {
    let text = text.trim();
    let mut starts = vec![0];
    let mut letter_seen = false;
    for (at, c) in text.char_indices() {
        if c.is_ascii_digit() && letter_seen {
            starts.push(at);
            letter_seen = false;
        }
        letter_seen |= c.is_alphabetic();
    }
    starts.push(text.len());
    starts.windows(2).map(|pair| text[pair[0]..pair[1]].trim()).filter(|piece| !piece.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_read_as_painters_write_them() {
        for (text, seconds) in [
            ("90 s", 90),
            ("20 min", 1200),
            ("20min", 1200),
            ("1 h 30 min", 5400),
            ("12 h", 43200),
            ("2 d", 172_800),
            ("0.5 h", 1800),
        ] {
            assert_eq!(Time::from_text(text), Ok(Time(seconds)), "{text}");
        }
    }

    #[test]
    fn a_wrong_unit_names_the_nearest() {
        assert_eq!(Time::from_text("20 mins").unwrap_err(), "'mins' is not a unit known here; did you mean 'min'?");
        assert_eq!(Time::from_text("1,5 h").unwrap_err(), "write a point, not a comma: 1.5");
        for text in ["", "20", "min", "-5 min", "30 min 1 h", "1 h 1 h", "9000 d", "1e309 s"] {
            assert!(Time::from_text(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_time_as_it_is_written_elsewhere_gets_its_own_mend() {
        for (text, says) in [
            ("30 m", "did you mean 'min'?"),
            ("30 Min", "did you mean 'min'?"),
            ("2 hours", "did you mean 'h'?"),
            ("2 hrs", "did you mean 'h'?"),
            ("1 Std", "did you mean 'h'?"),
            ("1 week", "write '7 d'"),
            ("2 weeks", "write '14 d'"),
            ("1:30", "did you mean '1 h 30 min'?"),
            ("0:45", "did you mean '45 min'?"),
            ("20-30 min", "take one of the two: '20 min' or '30 min'"),
            ("20 min – 1 h", "take one of the two: '20 min' or '1 h'"),
            ("1½ h", "write '1.5' for '1½'"),
            ("1 ½ h", "write '1.5' for '1½'"),
            ("1 week 2 d", "write '9 d'"),
            ("1 week 2 days 3 h", "write '9 d 3 h'"),
            ("1-2 hours", "take one of the two: '1 h' or '2 h'"),
            ("1–2 weeks", "take one of the two: '7 d' or '14 d'"),
            ("20–30", "as in '20 min' or '30 min'"),
            ("½ h", "write '0.5' for '½'"),
            ("30'", "did you mean '30 min'?"),
            ("90\"", "did you mean '90 s'?"),
            ("90''", "did you mean '90 s'?"),
            ("5 y", "write 's', 'min', 'h' or 'd'"),
        ] {
            let why = Time::from_text(text).unwrap_err();
            assert!(why.contains(says), "{text}: {why}");
        }
        assert!(!Time::from_text("-5 min").unwrap_err().contains("range"));
    }

    #[test]
    fn times_show_as_they_are_written() {
        for text in ["0 min", "90 s", "20 min", "1 h 30 min", "24 h", "36 h", "2 d"] {
            let time = Time::from_text(text).unwrap();
            assert_eq!(Time::from_text(&time.to_string()), Ok(time), "{text}");
        }
        assert_eq!(Time::from_text("48 h").unwrap().to_string(), "2 d");
        assert_eq!(Time::from_text("90 s").unwrap().to_string(), "1 min 30 s");
    }
}
