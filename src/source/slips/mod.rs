//! **Slips**: what an author most likely did where a file is not YAML, said in plain words.
//!
//! Nothing is guessed that was not tried out: each slip comes with the edit that mends it, and is only told if the file
//! can be read with that edit, or at least beyond the place where it could not be read before. Where no edit helps, the
//! words of the YAML library stand.

mod brackets;
mod hashes;
mod indents;
mod line;
mod quotes;
mod signs;
mod texts;
mod torn;

use super::cut;
use torn::{Slip, Torn};

/// Files longer than this are not tried over and over.
const LONGEST: usize = 64 * 1024;

/// So many names are looked up.
const MOST_NAMES: usize = 100;

/// Nor are files with a longer line.
const LONGEST_LINE: usize = 1000;

/// The slip that explains why a text is not YAML; `fault_of` gives the line of the first fault of a text, from 0.
pub(super) fn find(yaml: &str, fault_of: &dyn Fn(&str) -> Option<usize>) -> Option<Slip> {
    let lines = line::lines(yaml);
    // What is too long, too deep or repeated without end is no slip of the pen.
    if yaml.len() > LONGEST || lines.iter().any(|line| line.text.len() > LONGEST_LINE) || has_anchor(yaml) {
        return None;
    }
    // A fault at the very end is one of the last line with something in it.
    let last = lines.iter().rposition(|line| !line.text.trim().is_empty())?;
    let torn = Torn { fault: fault_of(yaml)?.min(last), last, lines, fault_of };
    let tries: [fn(&Torn<'_>) -> Option<Slip>; 16] = [
        indents::tab,
        signs::alike,
        signs::bullet,
        quotes::not_closed,
        hashes::in_brackets,
        brackets::not_closed,
        texts::comma_too_many,
        texts::comma_missing,
        texts::quotes_within,
        texts::entry_in_line,
        texts::wants_quotes,
        texts::sign_missing,
        texts::key_below_entry,
        texts::hyphen_missing,
        texts::hyphen_too_many,
        indents::wrong,
    ];
    tries.iter().find_map(|one| one(&torn))
}

/// Whether a text names a value (`&name`) and repeats it elsewhere.
fn has_anchor(yaml: &str) -> bool {
    let name = |at: usize| yaml[at + 2..].split(|c: char| !c.is_alphanumeric() && !matches!(c, '-' | '_')).next();
    let names = yaml.match_indices(" &").filter_map(|(at, _)| name(at)).filter(|name| !name.is_empty());
    names.take(MOST_NAMES).any(|name| cut::is_repeated(yaml, name))
}

#[cfg(test)]
mod tests;
