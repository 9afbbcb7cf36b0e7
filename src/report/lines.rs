//! Where the lines and characters of a text stand, counted once. A file may have as many findings as words, and none of
//! them may go through the whole text again.

/// How many bytes are gone through at most to count the characters before one.
const STRIDE: usize = 1024;

/// The lines and characters of a text.
#[derive(Debug)]
pub(super) struct Lines {
    /// The bytes at which lines begin.
    starts: Vec<u32>,
    /// How many characters begin before each [`STRIDE`] of bytes.
    before: Vec<u32>,
}

impl Lines {
    /// Goes through a text.
    pub(super) fn of(text: &str) -> Self {
        let breaks = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n');
        let starts = std::iter::once(0).chain(breaks.map(|(at, _)| short(at + 1))).collect();
        let mut sum = 0;
        let counted = text.as_bytes().chunks(STRIDE).map(|chunk| {
            sum += short(characters(chunk));
            sum
        });
        Self { starts, before: std::iter::once(0).chain(counted).collect() }
    }

    /// Line and column of a byte of the same text, both counted from 1, the column in characters.
    pub(super) fn position(&self, text: &str, byte: usize) -> (usize, usize) {
        let line = self.starts.partition_point(|start| *start as usize <= byte).max(1);
        let start = self.starts.get(line - 1).map_or(0, |start| *start as usize);
        (line, self.characters_before(text, byte) - self.characters_before(text, start) + 1)
    }

    fn characters_before(&self, text: &str, byte: usize) -> usize {
        let stride = byte / STRIDE;
        let whole = self.before.get(stride).map_or(0, |count| *count as usize);
        whole + text.as_bytes().get(stride * STRIDE..byte).map_or(0, characters)
    }
}

/// How many characters begin in a stretch of UTF-8.
fn characters(bytes: &[u8]) -> usize {
    bytes.iter().filter(|byte| (**byte & 0b1100_0000) != 0b1000_0000).count()
}

/// No text that is read has four gigabytes.
fn short(at: usize) -> u32 {
    u32::try_from(at).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn every_character_stands_where_counting_finds_it(text in "([aß金🦀 ]{0,900}\n){0,6}", at in 0_usize..20_000) {
            let byte = text.floor_char_boundary(at);
            let before = &text[..byte];
            let line_start = before.rfind('\n').map_or(0, |found| found + 1);
            let counted = (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1);
            prop_assert_eq!(Lines::of(&text).position(&text, byte), counted);
        }
    }
}
