//! Which letters of a text can be printed. One that no font has is written as its number, so that nothing vanishes
//! and no empty box stands for it; a finding tells the author.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use super::checks;
use super::fonts::Fonts;
use crate::report::{Check, Finding, Place, wording};
use crate::work::WorkedScheme;

/// The most letters that one finding names.
const MOST_NAMED: usize = 5;

/// A text as it is printed: composed, on one line, and each letter that no font has as its number.
pub(super) fn printable(fonts: &Fonts, text: &str) -> String {
    let mut printed = String::with_capacity(text.len());
    each(fonts, text, |letter, known| {
        if known {
            printed.push(letter);
        } else {
            printed.push_str(&number(letter));
        }
    });
    printed
}

/// The letters of a text that no font has, each once, in their order.
fn missing(fonts: &Fonts, text: &str) -> Vec<char> {
    let mut letters = Vec::new();
    each(fonts, text, |letter, known| {
        if !known && !letters.contains(&letter) {
            letters.push(letter);
        }
    });
    letters
}

fn number(letter: char) -> String {
    format!("[U+{:04X}]", u32::from(letter))
}

/// Tells each letter of a text that is seen, and whether it can be printed.
fn each(fonts: &Fonts, text: &str, mut tell: impl FnMut(char, bool)) {
    let mut base: Option<char> = None;
    let mut space = true;
    for letter in text.nfc().filter(|letter| !is_without_look(*letter)) {
        if is_space(letter) {
            if !space {
                tell(' ', true);
            }
            (base, space) = (None, true);
            continue;
        }
        space = false;
        let known = match base {
            _ if wording::is_hidden(letter) => false,
            Some(base) if is_combining_mark(letter) => fonts.have(&[base, letter]),
            _ => fonts.have(&[letter]),
        };
        // A joiner that no font has changes only how its neighbours look.
        if known || !matches!(letter, '\u{200c}' | '\u{200d}') {
            tell(letter, known);
        }
        if !is_combining_mark(letter) {
            base = known.then_some(letter);
        }
    }
}

fn is_space(letter: char) -> bool {
    matches!(letter, ' ' | '\n' | '\r' | '\t' | '\u{2028}' | '\u{2029}' | '\u{2000}'..='\u{2006}' | '\u{3000}')
}

/// What may be in a text and is never seen: hints for breaking lines, and choices between looks of one letter.
fn is_without_look(letter: char) -> bool {
    matches!(letter, '\u{ad}' | '\u{200b}' | '\u{2060}' | '\u{feff}' | '\u{fe00}'..='\u{fe0f}')
}

/// What is to be said of the letters of one scheme.
pub(super) fn check_scheme(worked: &WorkedScheme, fonts: &Fonts) -> Vec<Finding> {
    let scheme = &worked.scheme;
    let plain = |text: &str, what, place| told(fonts, &checks::GLYPH_MISSING, text, what, place);
    let head = format!("{} {}", scheme.title, scheme.summary.as_deref().unwrap_or_default());
    let mut findings = Vec::from_iter(plain(&head, "the title or the summary", scheme.place));
    findings.extend(scheme.areas.iter().filter_map(|area| plain(&area.title, "an area", area.place)));
    for step in &scheme.steps {
        findings.extend(plain(&step.title, "the title of a step", step.places.title));
        let tools: Vec<&str> = step.tools.iter().map(|tool| tool.name.as_str()).collect();
        let small = tools.join(" ");
        findings.extend(plain(&small, "the tools of a step", step.places.title));
        findings.extend(
            step.sentence().and_then(|sentence| plain(&sentence, "the sentence for the card", step.places.title)),
        );
        let cautions = step.safety.join(" ");
        let place = step.places.title;
        findings.extend(told(fonts, &checks::CAUTION_GLYPH_MISSING, &cautions, "a caution of a step", place));
    }
    findings
}

pub(super) fn told(fonts: &Fonts, check: &'static Check, text: &str, what: &str, place: Place) -> Option<Finding> {
    let missing = missing(fonts, text);
    let first = missing.iter().take(MOST_NAMED);
    let named: Vec<String> =
        first.map(|letter| format!("{} ({})", wording::quoted(&letter.to_string()), number(*letter))).collect();
    if named.is_empty() {
        return None;
    }
    let more = if missing.len() > named.len() { " and more" } else { "" };
    let message = format!("no font for printing has {}{more}, in {what}", named.join(", "));
    let mend = "write it in other letters, or put a font that has them into the theme's folder print";
    Some(Finding::new(check, place, message, mend))
}
