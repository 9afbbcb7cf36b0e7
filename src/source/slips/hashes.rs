//! A `#` in a text without quotes, after which the end of a list or a group is lost in a comment.

use super::torn::{Slip, Torn};
use crate::source::quote::{self, in_quotes};

/// The text with the sign: in quotes, the text can be read.
pub(super) fn in_brackets(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(super::torn::WINDOW).find_map(|(at, line)| {
        let sign = hash(line.text)?;
        if line.open().brackets.is_empty() {
            return None;
        }
        let before = line.text.get(..sign)?;
        let start = before.rfind(['[', '{', ',']).map_or(0, |at| at + 1);
        // In a group the text comes after its key.
        let start = before.get(start..)?.find(": ").map_or(start, |at| start + at + 2);
        let start = start + before.get(start..)?.len() - before.get(start..)?.trim_start().len();
        let end = line.text.get(sign..)?.find([',', ']', '}']).map_or(line.text.len(), |at| sign + at);
        let quoted = in_quotes(line.text.get(start..end)?.trim_end());
        let edited = format!("{}{quoted}{}", line.text.get(..start)?, line.text.get(end..)?);
        let message = "a '#' after a space begins a comment, and the end of the list or group is lost in it";
        torn.goes_on(at, edited).then(|| torn.slip(at, (start, end), message, quote::write(None, &quoted)))
    })
}

/// The first `#` that begins a comment and is hardly meant for one: a letter or a digit follows it at once.
fn hash(text: &str) -> Option<usize> {
    let mut signs = text.match_indices(" #").map(|(at, _)| at + 1);
    signs.find(|at| text.get(at + 1..).is_some_and(|rest| rest.starts_with(char::is_alphanumeric)))
}
