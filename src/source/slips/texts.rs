//! Texts that YAML takes for something else without quotes, and signs that are missing between them.

use super::line::{Line, Pair};
use super::torn::{Slip, Torn};
use crate::source::quote::{self, SHOWN, in_quotes};

/// Signs that a text can't begin with unless it is in quotes.
const SPECIAL: &[char] = &['[', '{', '@', '`', '%', '*', '&', '!', '|', '>', '?', '-', ',', ']', '}'];

/// A value that can be read once it is in quotes.
pub(super) fn wants_quotes(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(2).find_map(|(at, line)| {
        let is_whole = line.open().brackets.is_empty() && line.open().stray.is_none();
        let pair = line.pair().filter(|pair| is_whole && !pair.value.is_empty())?;
        let why = why(pair.value)?;
        let text = in_quotes(pair.value);
        let (before, rest) = line.text.split_at_checked(pair.at)?;
        let rest = rest.get(pair.value.len()..)?;
        if !torn.goes_on(at, format!("{before}{text}{rest}")) {
            return None;
        }
        let mend = quote::write(Some(pair.key), &text);
        // In a list the whole entry may be meant as one text.
        let mend = if line.content() > line.indent() && why.1 {
            "put quotes around the text that holds ': '".to_owned()
        } else {
            mend
        };
        Some(torn.slip(at, (pair.at, pair.at + pair.value.len()), why.0, mend))
    })
}

/// Why a value needs quotes, and whether it is a colon that asks for them.
fn why(value: &str) -> Option<(String, bool)> {
    let first = value.chars().next()?;
    let ends = value.len() > 2 && value.ends_with(first);
    match first {
        '\'' if ends => Some(("this text is in single quotes, and an apostrophe in it ends them".to_owned(), false)),
        '"' if ends => Some(("this text is in double quotes, and one inside it ends them".to_owned(), false)),
        '"' | '\'' => Some(("this text goes on after its closing quote".to_owned(), false)),
        _ if value.contains(": ") || value.ends_with(':') => {
            Some(("a text that holds ': ' needs quotes".to_owned(), true))
        }
        // A list or a group with nothing after it is one, and something else is wrong with it.
        '[' | '{' if value.ends_with([']', '}']) => None,
        _ if SPECIAL.contains(&first) => Some((format!("a text that begins with '{first}' needs quotes"), false)),
        _ => None,
    }
}

/// A comma that is missing between two keys of a group in braces; or a text there that holds a colon.
pub(super) fn comma_missing(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(2).find_map(|(at, line)| {
        let Entry { value, word, end } = entry_with_two_colons(line)?;
        let (text, rest) = line.text.split_at_checked(word)?;
        let name = rest.split(':').next().unwrap_or_default().to_owned();
        let between = text.get(value..)?.trim();
        let is_key = name.starts_with(|c: char| c.is_ascii_lowercase()) && !between.is_empty();
        if is_key && torn.goes_on(at, format!("{}, {rest}", text.trim_end())) {
            let message = format!("a comma is missing before '{name}'");
            let mend = format!("write a comma before '{name}'; or if it is one text, put quotes around all of it");
            return Some(torn.slip(at, (word, word + name.len()), message, mend));
        }
        let (before, rest) = line.text.split_at_checked(value)?;
        let (text, rest) = rest.split_at_checked(end - value)?;
        let quoted = in_quotes(text.trim());
        let message = "a text that holds ': ' needs quotes";
        let mend = format!("write {quoted}");
        let slip = || torn.slip(at, (value, value + text.trim_end().len()), message, mend);
        torn.goes_on(at, format!("{before}{quoted}{rest}")).then(slip)
    })
}

/// An entry of a group in braces with a second colon in its value.
struct Entry {
    /// The byte where the value begins.
    value: usize,
    /// The byte of the word before the second colon.
    word: usize,
    /// The byte after the value.
    end: usize,
}

fn entry_with_two_colons(line: &Line<'_>) -> Option<Entry> {
    let opened = line.text.find('{')?;
    let body = line.text.get(opened + 1..)?;
    if body.contains(['"', '\'']) {
        return None;
    }
    let mut start = opened + 1;
    for piece in body.split([',', '}', '{', '[', ']']) {
        let colons: Vec<usize> = piece.match_indices(": ").map(|(at, _)| at).collect();
        if let [first, second, ..] = colons.as_slice() {
            let after = piece.get(first + 2..)?;
            let value = start + first + 2 + after.len() - after.trim_start().len();
            let word = piece.get(..*second)?.rfind(' ').map_or(0, |space| space + 1);
            return Some(Entry { value, word: start + word, end: start + piece.len() });
        }
        start += piece.len() + 1;
    }
    None
}

/// A colon without a space after it, a key without its colon, a hyphen without its space.
pub(super) fn sign_missing(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(3).find_map(|(at, line)| {
        space_after_colon(torn, at, line)
            .or_else(|| colon(torn, at, line))
            .or_else(|| space_after_hyphen(torn, at, line))
    })
}

fn space_after_colon(torn: &Torn<'_>, at: usize, line: &Line<'_>) -> Option<Slip> {
    let content = line.content();
    let colon = content + line.text.get(content..)?.find(':')?;
    let (key, value) = (line.text.get(content..colon)?, line.text.get(colon + 1..)?);
    let is_slip = is_word(key) && value.starts_with(|c: char| !c.is_whitespace());
    if !is_slip || !torn.goes_on(at, format!("{}: {value}", line.text.get(..colon)?)) {
        return None;
    }
    let message = format!("there is no space after the colon of '{key}'");
    let value = if value.chars().count() > SHOWN { "…" } else { value.trim_end() };
    Some(torn.slip(at, (content, colon + 1), message, format!("write {key}: {value}")))
}

fn colon(torn: &Torn<'_>, at: usize, line: &Line<'_>) -> Option<Slip> {
    let content = line.content();
    let text = line.text.get(content..)?.trim_end();
    let key = text.split(' ').next()?;
    let rest = text.get(key.len()..)?;
    let is_slip = is_word(key) && !text.contains(':');
    let edited = format!("{}{key}:{rest}", line.text.get(..content)?);
    if !is_slip || !torn.is_whole(&[(at, edited)]) {
        return None;
    }
    let message = format!("there is no colon after '{key}'");
    Some(torn.slip(at, (content, content + key.len()), message, format!("write '{key}: …' if it is a key")))
}

fn space_after_hyphen(torn: &Torn<'_>, at: usize, line: &Line<'_>) -> Option<Slip> {
    let indent = line.indent();
    let rest = line.text.get(indent..)?.strip_prefix('-')?;
    let is_slip = rest.starts_with(|c: char| c.is_alphanumeric() || c == '{');
    if !is_slip || !torn.is_whole(&[(at, format!("{}- {rest}", line.text.get(..indent)?))]) {
        return None;
    }
    let mend = "write a hyphen and a space before each entry of a list";
    Some(torn.slip(at, (indent, indent + 1), "there is no space after the hyphen", mend))
}

/// A key among the entries of a list.
pub(super) fn hyphen_missing(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(2).find_map(|(at, line)| {
        let indent = line.indent();
        let above = torn.lines.get(..at)?.iter().rev().find(|line| !line.is_bare() && line.indent() <= indent)?;
        let is_mixed = line.content() == indent && above.indent() == indent && above.content() > indent;
        let first = (at, format!("{}- {}", " ".repeat(indent), line.text.get(indent..)?));
        let further = torn.lines.iter().enumerate().skip(at + 1);
        let further = further.take_while(|(_, below)| below.indent() >= indent && below.content() == below.indent());
        let further = further.map(|(at, below)| (at, format!("  {}", below.text)));
        let edits: Vec<(usize, String)> = std::iter::once(first).chain(further).collect();
        if !is_mixed || !torn.is_whole(&edits) {
            return None;
        }
        let end = line.text.trim_end().len();
        let mend = "write a hyphen before each entry, or before none of them";
        Some(torn.slip(at, (indent, end), "entries with and without a hyphen are mixed here", mend))
    })
}

/// An entry of a list among keys, which is a key of its own.
pub(super) fn hyphen_too_many(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(2).find_map(|(at, line)| {
        let indent = line.indent();
        let above = torn.lines.get(..at)?.iter().rev().find(|line| !line.is_bare() && line.indent() <= indent)?;
        let is_mixed = line.content() > indent && above.indent() == indent && above.content() == indent;
        let edited = format!("{}{}", " ".repeat(indent), line.text.get(line.content()..)?);
        let is_key = line.pair().is_some();
        if !is_mixed || !is_key || !torn.goes_on(at, edited) {
            return None;
        }
        let end = line.content();
        let message = "there is a hyphen before this key, and none before the one above";
        Some(torn.slip(at, (indent, end), message, "take the hyphen out: each key stands for itself here"))
    })
}

/// Whether a text is a word such as keys are.
fn is_word(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_lowercase())
        && text.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}

impl Pair<'_> {
    /// Whether the value is a text that might go on in the next line.
    pub(super) fn may_go_on(&self) -> bool {
        !self.value.is_empty() && !self.value.starts_with(['"', '\'', '[', '{', '|', '>'])
    }
}
