//! Calendar files (iCalendar, RFC 5545), written here: the usual library asks the clock and a random source where a
//! property is left out, and its folding takes the square of a line's length, which an author chooses.

use crate::measure::Date;

/// Octets of a line before it is folded, without its line break (RFC 5545, 3.1).
const LINE: usize = 75;

/// A calendar in the making.
#[derive(Debug)]
pub(crate) struct Calendar {
    text: String,
}

/// One event, at local times wherever it is read.
#[derive(Debug)]
pub(crate) struct Event<'a> {
    /// What tells it from all others.
    pub(crate) uid: String,
    /// What stands for the moment at which it was written down: the same in every run.
    pub(crate) stamp: Date,
    /// Its day.
    pub(crate) date: Date,
    /// When it begins, in seconds since midnight.
    pub(crate) from: u32,
    /// How long it lasts, in seconds.
    pub(crate) length: u32,
    /// Its title.
    pub(crate) summary: &'a str,
    /// All else.
    pub(crate) description: &'a str,
    /// Where it is reported in full.
    pub(crate) address: Option<&'a str>,
}

impl Calendar {
    /// An empty calendar with a name.
    pub(crate) fn new(name: &str) -> Self {
        let mut calendar = Self { text: String::new() };
        calendar.line("BEGIN:VCALENDAR");
        calendar.line("VERSION:2.0");
        calendar.line("PRODID:-//Maulstick//Painting plan//EN");
        calendar.line("CALSCALE:GREGORIAN");
        calendar.line(&format!("NAME:{}", escaped(name)));
        calendar
    }

    /// Adds an event.
    pub(crate) fn add(&mut self, event: &Event<'_>) {
        self.line("BEGIN:VEVENT");
        self.line(&format!("UID:{}", escaped(&event.uid)));
        self.line(&format!("DTSTAMP:{}T000000Z", compact(event.stamp)));
        let (hours, minutes, seconds) = (event.from / 3600, event.from / 60 % 60, event.from % 60);
        self.line(&format!("DTSTART:{}T{hours:02}{minutes:02}{seconds:02}", compact(event.date)));
        self.line(&format!("DURATION:PT{}S", event.length));
        self.line(&format!("SUMMARY:{}", escaped(event.summary)));
        self.line(&format!("DESCRIPTION:{}", escaped(event.description)));
        if let Some(address) = event.address {
            self.line(&format!("URL:{address}"));
        }
        self.line("TRANSP:OPAQUE");
        self.line("END:VEVENT");
    }

    /// The finished file.
    pub(crate) fn finish(mut self) -> String {
        self.line("END:VCALENDAR");
        self.text
    }

    /// A line, folded between characters so that no piece is longer than it may be.
    fn line(&mut self, line: &str) {
        let mut used = 0;
        for letter in line.chars() {
            if used + letter.len_utf8() > LINE {
                self.text.push_str("\r\n ");
                used = 1;
            }
            self.text.push(letter);
            used += letter.len_utf8();
        }
        self.text.push_str("\r\n");
    }
}

fn compact(date: Date) -> String {
    date.to_string().replace('-', "")
}

/// Text as a value: separators after a backslash, line breaks as `\n`, other control characters left out.
fn escaped(text: &str) -> String {
    let mut value = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '\\' | ';' | ',' => value.extend(['\\', letter]),
            '\n' => value.push_str("\\n"),
            _ if letter.is_control() => {}
            _ => value.push(letter),
        }
    }
    value
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lines_are_folded_between_characters() {
        let mut calendar = Calendar::new("Ä");
        calendar.line(&format!("SUMMARY:{}", "ü".repeat(80)));
        let text = calendar.finish();
        assert!(text.split("\r\n").all(|line| line.len() <= LINE), "{text}");
        assert!(text.replace("\r\n ", "").contains(&"ü".repeat(80)));
        assert!(!text.replace("\r\n", "").contains(['\r', '\n']));
    }

    #[test]
    fn separators_and_line_breaks_are_text() {
        assert_eq!(escaped("a, b; c\\d\r\ne\u{7}"), "a\\, b\\; c\\\\d\\ne");
    }
}
