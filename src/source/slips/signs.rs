//! Signs that look like those of YAML and are none: wide spaces and colons, and what a word processor puts before the entries of a
//! list.

use super::line::Line;
use super::torn::{Slip, Torn};

/// What is written before the entries of a list elsewhere.
const BULLETS: [char; 10] = ['*', '•', '–', '—', '−', '‑', '·', '‣', '◦', '●'];

/// A space or a colon that only looks like one: with a plain one in its place the text can be read.
pub(super) fn alike(torn: &Torn<'_>) -> Option<Slip> {
    // That a key has no colon is noticed only in the line after it.
    torn.up(3).find_map(|(at, line)| {
        let (byte, sign) = line.text.char_indices().find(|(_, sign)| is_alike(*sign))?;
        let odd = torn.lines.iter().enumerate().filter(|(_, line)| line.text.contains(is_alike));
        let all: Vec<(usize, String)> = odd.map(|(at, line)| (at, plain(line.text))).collect();
        if !torn.goes_on(at, plain(line.text)) && !torn.is_whole(&all) {
            return None;
        }
        let (message, mend) = if sign == '：' {
            ("this colon is a wide one ('：'), which YAML takes for a letter", "write ': ', a plain colon and a space")
        } else {
            ("this space is no plain one but a no-break or a wide one", "type a plain space in its place")
        };
        Some(torn.slip(at, (byte, byte + sign.len_utf8()), message, mend))
    })
}

/// A mark before an entry of a list that is no hyphen.
pub(super) fn bullet(torn: &Torn<'_>) -> Option<Slip> {
    torn.up(2).find_map(|(at, line)| {
        let (byte, mark) = bullet_of(line)?;
        let of_list =
            torn.lines.iter().enumerate().filter(|(_, line)| bullet_of(line).is_some_and(|(_, own)| own == mark));
        let all: Vec<(usize, String)> = of_list.filter_map(|(at, line)| Some((at, with_hyphen(line)?))).collect();
        if !torn.goes_on(at, with_hyphen(line)?) && !torn.is_whole(&all) {
            return None;
        }
        let message = format!("an entry of a list begins with '{mark}' here, and in YAML it begins with a hyphen");
        Some(torn.slip(at, (byte, byte + mark.len_utf8()), message, format!("write '- ' in place of '{mark}'")))
    })
}

fn is_alike(sign: char) -> bool {
    sign == '：' || sign == '\u{a0}' || matches!(sign, '\u{2000}'..='\u{200a}' | '\u{202f}' | '\u{205f}' | '\u{3000}')
}

fn plain(text: &str) -> String {
    text.replace('：', ": ").replace(is_alike, " ")
}

/// The mark before an entry, and the byte where it is.
fn bullet_of(line: &Line<'_>) -> Option<(usize, char)> {
    let byte = line.indent();
    let mark = line.text.get(byte..)?.chars().next().filter(|mark| BULLETS.contains(mark))?;
    // A star with a word at once after it repeats something.
    let is_mark = mark != '*' || line.text.get(byte + 1..).is_some_and(|rest| rest.starts_with(' '));
    is_mark.then_some((byte, mark))
}

fn with_hyphen(line: &Line<'_>) -> Option<String> {
    let (byte, mark) = bullet_of(line)?;
    let (indent, rest) = (line.text.get(..byte)?, line.text.get(byte + mark.len_utf8()..)?);
    Some(format!("{indent}- {}", rest.trim_start()))
}
