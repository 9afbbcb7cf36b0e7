//! A text that is not YAML, and the edits that are tried on it.

use super::line::Line;

/// How many lines above the fault may hold what is not closed.
pub(super) const WINDOW: usize = 40;

/// One slip: the bytes where it is, what it is, and what mends it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::source) struct Slip {
    pub(in crate::source) start: usize,
    pub(in crate::source) end: usize,
    pub(in crate::source) message: String,
    pub(in crate::source) mend: String,
}

/// A text that is not YAML, and what tells whether an edited one is.
pub(super) struct Torn<'a> {
    pub(super) lines: Vec<Line<'a>>,
    /// The line where the library gave up, from 0.
    pub(super) fault: usize,
    /// The last line with something in it.
    pub(super) last: usize,
    /// The line of the first fault of a text; none where it is YAML.
    pub(super) fault_of: &'a dyn Fn(&str) -> Option<usize>,
}

impl<'a> Torn<'a> {
    /// The lines from the fault upwards, as many as given; each with its position.
    pub(super) fn up(&self, most: usize) -> impl Iterator<Item = (usize, &Line<'a>)> {
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
    pub(super) fn goes_on(&self, at: usize, line: String) -> bool {
        (self.fault_of)(&self.edited(&[(at, line)])).is_none_or(|fault| fault.min(self.last) > self.fault)
    }

    /// Whether the whole text can be read with some edits.
    pub(super) fn is_whole(&self, edits: &[(usize, String)]) -> bool {
        (self.fault_of)(&self.edited(edits)).is_none()
    }

    /// A slip in a line, from one byte of it to another.
    pub(super) fn slip(
        &self,
        at: usize,
        (from, to): (usize, usize),
        message: impl Into<String>,
        mend: impl Into<String>,
    ) -> Slip {
        let start = self.lines.get(at).map_or(0, |line| line.start);
        Slip { start: start + from, end: start + to.max(from + 1), message: message.into(), mend: mend.into() }
    }
}
