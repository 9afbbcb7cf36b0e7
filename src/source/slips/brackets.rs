//! Brackets that are not closed, and closing ones that nothing opened.

use super::line::{Line, closing};
use super::torn::{Slip, Torn, WINDOW};

/// The bracket without an end, or the end without a bracket.
pub(super) fn not_closed(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(WINDOW).find_map(|(at, _)| opened(torn, at)).or_else(|| torn.up(2).find_map(|(at, _)| stray(torn, at)))
}

/// A bracket that a line opens: with its end in that line or in one of those after it the text can be read.
fn opened(torn: &Torn<'_>, at: usize) -> Option<Slip> {
    let open = torn.lines.get(at)?.open();
    let (byte, sign) = *open.brackets.first()?;
    let ends: String = open.brackets.iter().rev().map(|(_, sign)| closing(*sign)).collect();
    let here = [at].into_iter();
    let further = (at + 1..=torn.fault).rev();
    let end = here.chain(further).find(|end| {
        let Some(line) = torn.lines.get(*end).filter(|line| !line.is_bare()) else { return false };
        let (text, rest) = line.text.split_at_checked(line.open().end).unwrap_or((line.text, ""));
        torn.goes_on(*end, format!("{text}{ends}{rest}"))
    })?;
    let what = if sign == '[' { "list" } else { "group" };
    let mend = if end == at {
        format!("write {} at the end of the {what}, in the same line", quoted(&ends))
    } else {
        format!("write {} at the end of the {what}", quoted(&ends))
    };
    Some(torn.slip(at, (byte, byte + 1), format!("the '{sign}' that is opened here is not closed"), mend))
}

/// A closing bracket too many: without it the text can be read.
fn stray(torn: &Torn<'_>, at: usize) -> Option<Slip> {
    let line = torn.lines.get(at)?;
    let (byte, opened) = line.open().stray?;
    let (text, rest) = line.text.split_at_checked(byte)?;
    let sign = rest.chars().next()?;
    let rest = rest.get(sign.len_utf8()..)?;
    let (edited, message, mend) = match opened.map(|opened| (opened, closing(opened))) {
        Some((opened, right)) => (
            format!("{text}{right}{rest}"),
            format!("a '{opened}' is closed with '{sign}' here"),
            format!("write '{right}' in its place"),
        ),
        None => (format!("{text}{rest}"), format!("nothing opens this '{sign}'"), format!("take the '{sign}' out")),
    };
    let open = Line { start: 0, text: &edited }.open();
    let is_right = open.brackets.is_empty() && open.stray.is_none() && torn.goes_on(at, edited);
    is_right.then(|| torn.slip(at, (byte, byte + 1), message, mend))
}

fn quoted(ends: &str) -> String {
    format!("'{ends}'")
}
