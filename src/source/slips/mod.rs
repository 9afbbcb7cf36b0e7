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
mod torn;

use torn::{Slip, Torn};

/// Files longer than this are not tried over and over.
const LONGEST: usize = 64 * 1024;

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

#[cfg(test)]
mod tests;
