//! A quote that is opened and never closed.

use super::torn::{Slip, Torn, WINDOW};

/// The quote without an end: with one before the next sign of a group, or at the end of its line, the text can be read.
pub(super) fn not_closed(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(WINDOW).find_map(|(at, line)| {
        let open = line.open();
        let (byte, quote) = open.quote?;
        let signs = line.text.get(byte..)?.match_indices([',', '}', ']']).map(|(sign, _)| byte + sign);
        let signs = signs.filter(|_| !open.brackets.is_empty());
        let mut ends = signs.chain([line.text.trim_end().len()]);
        let closed = |end: usize| {
            let (text, rest) = line.text.split_at_checked(end)?;
            torn.goes_on(at, format!("{text}{quote}{rest}")).then_some(end)
        };
        let end = ends.find_map(closed)?;
        let message = format!("the quote {quote} that is opened here is not closed");
        Some(torn.slip(at, (byte, end), message, format!("write {quote} where the text ends, in the same line")))
    })
}
