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

/// The entry of a list in the line of its key: `areas: - coat`. What is neither an id nor a group may be a text of its own.
pub(super) fn entry_in_line(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(2).find_map(|(at, line)| {
        let pair = line.pair()?;
        let entry = pair.value.strip_prefix("- ")?.trim_start();
        if !(is_word(entry) || entry.starts_with('{') && entry.ends_with('}')) {
            return None;
        }
        let edited = format!("{}[{entry}]{}", line.text.get(..pair.at)?, line.text.get(pair.at + pair.value.len()..)?);
        let message = "an entry of a list can't begin in the line of its key";
        let whole = format!("{}: [{entry}]", pair.key);
        let mend = if whole.chars().count() > SHOWN {
            "put the list in brackets, or each entry in a line of its own".to_owned()
        } else {
            let or_one = if is_word(entry) {
                format!(", or {}: {entry} where only one can stand", pair.key)
            } else {
                String::new()
            };
            format!("write {whole}{or_one}")
        };
        torn.goes_on(at, edited).then(|| torn.slip(at, (pair.at, pair.at + pair.value.len()), message, mend))
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
        // A list or a group with nothing after it is one, and something else is wrong with it.
        '[' | '{' if value.ends_with([']', '}']) => None,
        _ if value.contains(": ") || value.ends_with(':') => {
            Some(("a text that holds ': ' needs quotes".to_owned(), true))
        }
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
    pieces(line).into_iter().find_map(|(start, end)| {
        let piece = line.text.get(start..end)?;
        let colons = colons(piece);
        let [first, second, ..] = colons.as_slice() else { return None };
        let after = piece.get(first + 2..)?;
        let value = start + first + 2 + after.len() - after.trim_start().len();
        let word = piece.get(..*second)?.rfind(' ').map_or(0, |space| space + 1);
        Some(Entry { value, word: start + word, end })
    })
}

/// What stands between the commas and brackets of a group in braces, each from one byte of its line to another. Within quotes
/// none of them divides anything.
fn pieces(line: &Line<'_>) -> Vec<(usize, usize)> {
    let Some(opened) = line.text.find('{') else { return Vec::new() };
    let mut start = opened + 1;
    let mut pieces = Vec::new();
    let mut at = start;
    let mut fresh = true;
    while let Some(sign) = line.text.get(at..).and_then(|rest| rest.chars().next()) {
        if fresh && let Some(length) = quoted_length(&line.text[at..]) {
            at += length;
            fresh = false;
            continue;
        }
        if matches!(sign, ',' | '}' | '{' | '[' | ']') {
            pieces.push((start, at));
            start = at + 1;
            fresh = true;
        } else if !sign.is_whitespace() {
            fresh = sign == ':';
        }
        at += sign.len_utf8();
    }
    pieces.push((start, at));
    pieces
}

/// How many bytes a text in quotes has that begins here, with both of them.
fn quoted_length(text: &str) -> Option<usize> {
    let quote = text.chars().next().filter(|sign| matches!(sign, '"' | '\''))?;
    let mut letters = text.char_indices().skip(1).peekable();
    while let Some((at, sign)) = letters.next() {
        let doubled = quote == '\'' && letters.peek().is_some_and(|(_, next)| *next == '\'');
        if sign == '\\' && quote == '"' || sign == quote && doubled {
            letters.next();
        } else if sign == quote {
            return Some(at + 1);
        }
    }
    None
}

/// The bytes of the colons before a space that stand outside quotes.
fn colons(piece: &str) -> Vec<usize> {
    let mut colons = Vec::new();
    let mut at = 0;
    let mut fresh = true;
    while let Some(sign) = piece.get(at..).and_then(|rest| rest.chars().next()) {
        if fresh && let Some(length) = quoted_length(&piece[at..]) {
            at += length;
            fresh = false;
            continue;
        }
        if sign == ':' && piece[at + 1..].starts_with(' ') {
            colons.push(at);
        }
        if !sign.is_whitespace() {
            fresh = sign == ':';
        }
        at += sign.len_utf8();
    }
    colons
}

/// A text in quotes in a group or a list that goes on after its closing quote.
pub(super) fn quotes_within(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(2).find_map(|(at, line)| {
        if !line.text.contains(['{', '[']) {
            return None;
        }
        let begins = line.text.match_indices(['"', '\'']).map(|(start, _)| start).filter(|start| {
            let before = line.text[..*start].trim_end();
            before.ends_with([',', '{', '[']) || (before.ends_with(':') && before.len() < *start)
        });
        begins.take(MOST_QUOTES).find_map(|start| {
            let after = start + quoted_length(line.text.get(start..)?)?;
            let rest = line.text.get(after..)?;
            let next = rest.trim_start().chars().next().filter(|sign| !matches!(sign, ',' | '}' | ']' | ':' | '#'))?;
            let mut ends = rest.match_indices([',', '}', ']']).map(|(end, _)| after + end).take(MOST_QUOTES);
            let quote = line.text.get(start..)?.chars().next()?;
            ends.find_map(|end| {
                let text = line.text.get(start..end)?.trim_end();
                let quoted = in_quotes(text);
                let edited = format!("{}{quoted}{}", line.text.get(..start)?, line.text.get(start + text.len()..)?);
                let why = match quote {
                    _ if !text.ends_with(quote) => "this text goes on after its closing quote",
                    '\'' if next.is_alphanumeric() => {
                        "this text is in single quotes, and an apostrophe in it ends them"
                    }
                    '\'' => "this text is in single quotes, and one inside it ends them",
                    _ => "this text is in double quotes, and one inside it ends them",
                };
                let slip = || torn.slip(at, (start, start + text.len()), why, quote::write(None, &quoted));
                torn.goes_on(at, edited).then(slip)
            })
        })
    })
}

/// So many quotes and ends of a line are tried.
const MOST_QUOTES: usize = 20;

/// Two commas with nothing between them.
pub(super) fn comma_too_many(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(2).find_map(|(at, line)| {
        let doubled = pieces(line).into_iter().find(|(start, end)| {
            let is_comma = |byte: usize| line.text.get(byte..).is_some_and(|rest| rest.starts_with(','));
            let is_nothing = line.text.get(*start..*end).is_some_and(|text| text.trim().is_empty());
            is_nothing && is_comma(*end) && (is_comma(start.saturating_sub(1)) || line.text[..*start].ends_with('{'))
        });
        let (_, comma) = doubled?;
        let edited = format!("{}{}", line.text.get(..comma)?, line.text.get(comma + 1..)?);
        let message = "there is a comma too many here, with nothing before it";
        torn.goes_on(at, edited).then(|| torn.slip(at, (comma, comma + 1), message, "take this comma out"))
    })
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

/// A key in the column of a list's hyphens: one more of the entry above it, or one that comes after the list.
pub(super) fn key_below_entry(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(2).find_map(|(at, line)| {
        let indent = line.indent();
        let own = line.pair().filter(|_| line.content() == indent)?;
        let before = torn.lines.get(..at)?;
        let above = before.iter().rev().find(|line| !line.is_bare() && line.indent() <= indent)?;
        if above.indent() != indent || above.content() == indent {
            return None;
        }
        let entries = || torn.lines.iter().filter(|line| line.indent() == indent && line.content() > indent);
        let (column, like) = match above.pair() {
            // A key that other entries begin with begins an entry itself.
            Some(first) if !first.value.is_empty() && !first.value.starts_with(['{', '[']) => {
                let begins = |line: &Line<'_>| line.pair().is_some_and(|pair| pair.key == own.key);
                let under = format!("under '{}' above", first.key);
                (!entries().any(begins)).then_some((above.content(), under))?
            }
            None if above.text.get(above.content()..)?.starts_with('{') => {
                let outer = before.iter().rev().find(|line| !line.is_bare() && line.indent() < indent)?;
                (outer.indent(), format!("under '{}' above", outer.pair()?.key))
            }
            _ => return None,
        };
        // All such keys are moved, each one as far.
        let moved = |(at, line): (usize, &Line<'_>)| {
            let is_key = line.indent() == indent && line.content() == indent && line.pair().is_some();
            let is_after = column > indent || at >= torn.fault.saturating_sub(1);
            (is_key && is_after).then(|| (at, format!("{}{}", " ".repeat(column), line.text.trim_start())))
        };
        let edits: Vec<(usize, String)> = torn.lines.iter().enumerate().filter_map(moved).collect();
        let alone = (at, format!("{}{}", " ".repeat(column), line.text.trim_start()));
        if !torn.is_whole(&edits) && !torn.is_whole(std::slice::from_ref(&alone)) && !torn.goes_on(at, alone.1) {
            return None;
        }
        let message = format!("the indentation of this line is wrong: it begins in column {}", indent + 1);
        let mend = format!("begin it in column {}, {like}", column + 1);
        Some(torn.slip(at, (indent, line.text.trim_end().len()), message, mend))
    })
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
        let outer = torn.lines.get(..at)?.iter().rev().find(|line| !line.is_bare() && line.indent() < indent);
        let is_own = |outer: &&Line<'_>| {
            let moved = format!("{}{}", " ".repeat(outer.indent()), line.text.trim_start());
            above.pair().is_none() && torn.is_whole(&[(at, moved)])
        };
        let or_own = outer
            .filter(is_own)
            .map(|outer| format!("; or if it is a key of its own, begin it in column {}", outer.indent() + 1));
        let mend = format!("write a hyphen before each entry, or before none of them{}", or_own.unwrap_or_default());
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
