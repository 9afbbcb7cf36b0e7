//! **Slips**: what an author most likely did where a file is not YAML, said in plain words.
//!
//! Nothing is guessed that was not tried out: each slip comes with the edit that mends it, and is only told if the file
//! can be read with that edit, or at least beyond the place where it could not be read before. Where no edit helps, the
//! words of the YAML library stand.

mod brackets;
mod indents;
mod line;
mod quotes;
mod texts;

use line::Line;

/// Files longer than this are not tried over and over.
const LONGEST: usize = 64 * 1024;

/// How many lines above the fault may hold what is not closed.
const WINDOW: usize = 40;

/// One slip: the bytes where it is, what it is, and what mends it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Slip {
    pub(super) start: usize,
    pub(super) end: usize,
    pub(super) message: String,
    pub(super) mend: String,
}

/// A text that is not YAML, and what tells whether an edited one is.
struct Torn<'a> {
    lines: Vec<Line<'a>>,
    /// The line where the library gave up, from 0.
    fault: usize,
    /// The last line with something in it.
    last: usize,
    /// The line of the first fault of a text; none where it is YAML.
    fault_of: &'a dyn Fn(&str) -> Option<usize>,
}

/// The slip that explains why a text is not YAML; `fault_of` gives the line of the first fault of a text, from 0.
pub(super) fn find(yaml: &str, fault_of: &dyn Fn(&str) -> Option<usize>) -> Option<Slip> {
    if yaml.len() > LONGEST {
        return None;
    }
    let lines = line::lines(yaml);
    // A fault at the very end is one of the last line with something in it.
    let last = lines.iter().rposition(|line| !line.text.trim().is_empty())?;
    let torn = Torn { fault: fault_of(yaml)?.min(last), last, lines, fault_of };
    let tries: [fn(&Torn<'_>) -> Option<Slip>; 8] = [
        indents::tab,
        quotes::not_closed,
        brackets::not_closed,
        texts::comma_missing,
        texts::wants_quotes,
        texts::sign_missing,
        texts::hyphen_missing,
        indents::wrong,
    ];
    tries.iter().find_map(|one| one(&torn))
}

impl<'a> Torn<'a> {
    /// The lines from the fault upwards, as many as given; each with its position.
    fn up(&self, most: usize) -> impl Iterator<Item = (usize, &Line<'a>)> {
        let from = (self.fault + 1).saturating_sub(most);
        self.lines.iter().enumerate().take(self.fault + 1).skip(from).rev()
    }

    /// The text with some lines in the place of others.
    fn edited(&self, edits: &[(usize, String)]) -> String {
        let line = |(at, line): (usize, &Line<'_>)| {
            let edit = edits.iter().find(|(edited, _)| *edited == at);
            format!("{}\n", edit.map_or(line.text, |(_, text)| text))
        };
        self.lines.iter().enumerate().map(line).collect()
    }

    /// Whether the text can be read further with an edit of one line: beyond its fault, or to its end.
    fn goes_on(&self, at: usize, line: String) -> bool {
        (self.fault_of)(&self.edited(&[(at, line)])).is_none_or(|fault| fault.min(self.last) > self.fault)
    }

    /// Whether the whole text can be read with some edits.
    fn is_whole(&self, edits: &[(usize, String)]) -> bool {
        (self.fault_of)(&self.edited(edits)).is_none()
    }

    /// A slip in a line, from one byte of it to another.
    fn slip(&self, at: usize, (from, to): (usize, usize), message: impl Into<String>, mend: impl Into<String>) -> Slip {
        let start = self.lines.get(at).map_or(0, |line| line.start);
        Slip { start: start + from, end: start + to.max(from + 1), message: message.into(), mend: mend.into() }
    }
}

#[cfg(test)]
mod tests;
