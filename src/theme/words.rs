//! The words of the interface in one language: keys, placeholders, and one or many.

use std::collections::BTreeMap;

use crate::colour::{CLOSE, JUST_SEEN, PLAINLY_SEEN, in_whole};
use crate::measure::exact;

/// The units of a time that are told, and how many seconds each has.
const DAY: (&str, u64) = ("day", 86400);
const OF_A_DAY: [(&str, u64); 3] = [("hour", 3600), ("minute", 60), ("second", 1)];

/// The words of one language.
#[derive(Debug, Clone, Default, PartialEq, Eq, Hash)]
pub struct Words {
    entries: BTreeMap<String, String>,
}

impl Words {
    /// Words from keys such as `nav.paints`.
    pub fn new(entries: BTreeMap<String, String>) -> Self {
        Self { entries }
    }

    /// All keys and their words.
    pub fn entries(&self) -> &BTreeMap<String, String> {
        &self.entries
    }

    /// The words of a key, if they are there.
    pub fn get(&self, key: &str) -> Option<&str> {
        self.entries.get(key).map(String::as_str)
    }

    /// The words of a key for a count: `key.one` where the language uses its singular, otherwise `key.many`.
    pub fn get_counted(&self, key: &str, count: u64) -> Option<&str> {
        let singular_up_to: u64 = self.get("grammar.singular-up-to").and_then(|most| most.parse().ok()).unwrap_or(1);
        let zero_is_singular = self.get("grammar.zero") == Some("singular");
        let one = if count == 0 { zero_is_singular } else { count <= singular_up_to };
        self.get(&format!("{key}.{}", if one { "one" } else { "many" }))
    }

    /// The words of a key with their placeholders filled; the key itself where there are none, which a test rules out.
    pub fn filled(&self, key: &str, values: &[(&str, &str)]) -> String {
        fill(self.get(key).unwrap_or(key), values)
    }

    /// The words of a key for a count, with the count in the place of `{n}`.
    pub fn counted(&self, key: &str, count: u64) -> String {
        self.counted_with(key, count, &[])
    }

    /// The same with other placeholders filled too.
    pub fn counted_with(&self, key: &str, count: u64, values: &[(&str, &str)]) -> String {
        let count_shown = count.to_string();
        let values: Vec<(&str, &str)> = values.iter().copied().chain([("n", count_shown.as_str())]).collect();
        fill(self.get_counted(key, count).unwrap_or(key), &values)
    }

    /// The words of a key for an amount such as `3`, `0.5` or `1/3`, with it in the place of `{n}`. What is not whole is many,
    /// but where the language counts none as one: there all below two is one.
    pub fn measured(&self, key: &str, amount: &str) -> String {
        let number = |text: &str| text.parse::<u64>().ok();
        let below = match amount.split_once('/') {
            Some((over, under)) => number(over).zip(number(under)).and_then(|(over, under)| over.checked_div(under)),
            None => amount.split('.').next().and_then(number),
        };
        let none_is_one = self.get("grammar.zero") == Some("singular");
        let counts_as = number(amount).or(below.filter(|_| none_is_one)).unwrap_or(u64::MAX);
        fill(self.get_counted(key, counts_as).unwrap_or(key), &[("n", &self.number(amount))])
    }

    /// The same words with plain spaces, for a terminal.
    #[must_use]
    pub fn with_plain_spaces(&self) -> Self {
        let plain = |text: &String| text.replace(['\u{a0}', '\u{202f}'], " ");
        Self { entries: self.entries.iter().map(|(key, text)| (key.clone(), plain(text))).collect() }
    }

    /// A length of time in the language's short units, the two largest that it has, to the nearest: `1 h 30 min`.
    pub fn duration(&self, seconds: u64) -> String {
        self.in_units(seconds, 2 * DAY.1, std::iter::once(DAY).chain(OF_A_DAY))
    }

    /// How long somebody works, as [`Self::duration`] but never in days, which would be read as days of work: `41 h 30 min`.
    pub fn work(&self, seconds: u64) -> String {
        self.in_units(seconds, 3 * DAY.1, OF_A_DAY.into_iter())
    }

    /// In units of which the first comes first; from `long` on only whole hours are told.
    fn in_units(&self, seconds: u64, long: u64, units: impl Iterator<Item = (&'static str, u64)>) -> String {
        let least = match seconds {
            0..3600 => 1,
            _ if seconds < long => 60,
            _ => 3600,
        };
        let mut rest = seconds.saturating_add(least / 2) / least * least;
        let mut shown: Vec<String> = Vec::new();
        for (unit, length) in units {
            let count = rest / length;
            // A day, and a day and a half, are written in hours, as painters do.
            if count == 0 || (unit == "day" && rest < 2 * length) {
                continue;
            }
            rest %= length;
            let word = self.get(&format!("unit.{unit}")).unwrap_or(unit);
            shown.push(format!("{count}\u{a0}{word}"));
            if shown.len() == 2 {
                break;
            }
        }
        if shown.is_empty() { format!("0\u{a0}{}", self.get("unit.minute").unwrap_or("min")) } else { shown.join(" ") }
    }

    /// A day, given as year, month and day, in the language's order.
    pub fn day(&self, day: &str) -> String {
        let parts: Vec<&str> = day.split('-').collect();
        let [year, month, date] = parts.as_slice() else { return day.to_owned() };
        let pattern = self.get("grammar.day").unwrap_or("{year}-{month}-{date}");
        let name = self.get(&format!("month.{month}")).unwrap_or(month);
        pattern.replace("{year}", year).replace("{month}", name).replace("{date}", date.trim_start_matches('0'))
    }

    /// The same with the day of the week, in short: `Tue 19 Jan 2027`.
    pub fn short_day(&self, weekday: &str, day: &str) -> String {
        let parts: Vec<&str> = day.split('-').collect();
        let [year, month, date] = parts.as_slice() else { return day.to_owned() };
        let named = |key: String, name| self.get(&key).unwrap_or(name).to_owned();
        let weekday = named(format!("short-day.{weekday}"), weekday);
        let month = named(format!("short-month.{month}"), month);
        let date = date.trim_start_matches('0');
        self.filled("grammar.short-day", &[("weekday", &weekday), ("date", date), ("month", &month), ("year", year)])
    }

    /// Per cent to at most so many places, as the language writes them.
    pub fn percent(&self, share: f64, places: usize) -> String {
        self.filled("percent", &[("share", &self.number(&exact(share, places)))])
    }

    /// A difference of colour (CIEDE2000), no finer than it is worth, and in a word what it is to the eye.
    pub fn difference(&self, difference: f64) -> String {
        // The word is that of the figure beside it.
        let told = if difference < JUST_SEEN { difference } else { difference.round() };
        let grade = match told {
            ..JUST_SEEN => "unseen",
            ..PLAINLY_SEEN => "slight",
            ..=CLOSE => "plain",
            _ => "other",
        };
        let figure = in_whole(difference);
        let grade = self.filled(&format!("grade.{grade}"), &[]);
        self.filled("grade.told", &[("difference", &figure), ("grade", &grade)])
    }

    /// A number with the language's decimal sign.
    pub fn number(&self, figure: &str) -> String {
        figure.replace('.', self.get("grammar.decimal").unwrap_or("."))
    }
}

/// Fills the gaps of a text in one pass, so that a name which looks like a gap is never filled.
fn fill(text: &str, values: &[(&str, &str)]) -> String {
    let mut shown = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        shown.push_str(before);
        let value = after.split_once('}').and_then(|(name, after)| {
            values.iter().find(|(known, _)| *known == name).map(|(_, value)| (*value, after))
        });
        let (filled, further) = value.unwrap_or(("{", after));
        shown.push_str(filled);
        rest = further;
    }
    shown + rest
}

/// The names in curly brackets of a text.
pub(super) fn placeholders(text: &str) -> Vec<&str> {
    let mut names: Vec<&str> =
        text.split('{').skip(1).filter_map(|part| part.split_once('}')).map(|(name, _)| name).collect();
    names.sort_unstable();
    names.dedup();
    names
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(entries: &[(&str, &str)]) -> Words {
        Words::new(entries.iter().map(|(key, text)| ((*key).to_owned(), (*text).to_owned())).collect())
    }

    #[test]
    fn one_and_many_follow_the_language() {
        let entries = [("coats.one", "{n} coat"), ("coats.many", "{n} coats")];
        let english = words(&entries);
        assert_eq!(english.get_counted("coats", 1), Some("{n} coat"));
        assert_eq!(english.get_counted("coats", 0), Some("{n} coats"));
        let french = words(&[&entries[..], &[("grammar.zero", "singular")]].concat());
        assert_eq!(french.get_counted("coats", 0), Some("{n} coat"));
    }

    #[test]
    fn parts_of_one_follow_the_language() {
        let entries = [("parts.one", "{n} part"), ("parts.many", "{n} parts")];
        let english = words(&entries);
        let told = |words: &Words| ["1", "0.5", "1.5", "1/3", "5/2", "2"].map(|amount| words.measured("parts", amount));
        assert_eq!(told(&english), ["1 part", "0.5 parts", "1.5 parts", "1/3 parts", "5/2 parts", "2 parts"]);
        let french = words(&[&entries[..], &[("grammar.zero", "singular"), ("grammar.decimal", ",")]].concat());
        assert_eq!(told(&french), ["1 part", "0,5 part", "1,5 part", "1/3 part", "5/2 parts", "2 parts"]);
    }

    #[test]
    fn durations_read_as_painters_say_them() {
        let english = words(&[("unit.hour", "h"), ("unit.minute", "min"), ("unit.day", "d"), ("unit.second", "s")]);
        let shown = |seconds| english.duration(seconds).replace('\u{a0}', " ");
        assert_eq!(shown(90), "1 min 30 s");
        assert_eq!(shown(5400), "1 h 30 min");
        assert_eq!(shown(24 * 3600), "24 h");
        assert_eq!(shown(36 * 3600), "36 h");
        assert_eq!(shown(48 * 3600), "2 d");
        assert_eq!(shown(71 * 3600 + 29 * 60), "2 d 23 h");
        assert_eq!(shown(100 * 3600), "4 d 4 h");
        assert_eq!(shown(10_650), "2 h 58 min");
        assert_eq!(shown(100 * 3600 - 20), "4 d 4 h");
        assert_eq!(shown(0), "0 min");
    }

    #[test]
    fn work_is_told_in_hours_however_long_it_is() {
        let english = words(&[("unit.hour", "h"), ("unit.minute", "min"), ("unit.day", "d")]);
        let shown = |seconds| english.work(seconds).replace('\u{a0}', " ");
        assert_eq!(shown(41 * 3600 + 1800), "41 h 30 min");
        assert_eq!(shown(48 * 3600), "48 h");
        assert_eq!(shown(410 * 3600 + 600), "410 h");
        assert_eq!(shown(0), "0 min");
    }

    #[test]
    fn a_name_that_looks_like_a_gap_stays_a_name() {
        assert_eq!(fill("{name} ({amount} ml)", &[("name", "{amount}"), ("amount", "3")]), "{amount} (3 ml)");
        assert_eq!(fill("an {n} open { stays", &[("n", "x")]), "an x open { stays");
        assert_eq!(fill("{unknown} stays", &[("n", "x")]), "{unknown} stays");
    }

    #[test]
    fn placeholders_are_found() {
        assert_eq!(placeholders("{n} of {count} {n}"), ["count", "n"]);
    }
}
