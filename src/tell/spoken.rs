//! What several results in the terminal say in the words of a guide: days, lengths of work, lists of names.

use crate::measure::{Date, Weekday};
use crate::theme::Words;

/// A day with that of the week: `Tue 19 Jan 2027`.
pub(crate) fn day(date: Date, words: &Words) -> String {
    let weekday = usize::try_from(date.0.weekday().to_monday_zero_offset()).unwrap_or_default();
    words.short_day(Weekday(weekday).name(), &date.to_string())
}

/// A length of time in hours and minutes, however long it is: `75 h 20 min`.
pub(crate) fn length(minutes: u64, words: &Words) -> String {
    let [hour, minute] = ["unit.hour", "unit.minute"].map(|key| words.filled(key, &[]));
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} {minute}"),
        (hours, 0) => format!("{hours} {hour}"),
        (hours, minutes) => format!("{hours} {hour} {minutes} {minute}"),
    }
}

/// A name as one.
pub(crate) fn quoted(name: &str, words: &Words) -> String {
    words.filled("sheet.quoted", &[("name", name)])
}

/// `'a', 'b' and 'c'`.
pub(crate) fn listed<T: AsRef<str>>(names: impl IntoIterator<Item = T>, words: &Words) -> String {
    let quoted: Vec<String> = names.into_iter().map(|name| quoted(name.as_ref(), words)).collect();
    match quoted.split_last() {
        None => String::new(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => words.filled("shopping.and", &[("one", &rest.join(", ")), ("other", last)]),
    }
}
