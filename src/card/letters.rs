//! Which letters of a text can be printed. One that no font has is written as its number, so that nothing vanishes
//! and no empty box stands for it; a finding tells the author.

use std::collections::{BTreeMap, BTreeSet};

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;
use unicode_script::{Script, UnicodeScript};

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
    if fonts.have_plain(text) {
        return letters;
    }
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
    let (mut composed, mut plain);
    // What is ASCII is composed, and most texts are.
    let letters: &mut dyn Iterator<Item = char> = if text.is_ascii() {
        plain = text.chars();
        &mut plain
    } else {
        composed = text.nfc();
        &mut composed
    };
    for letter in letters.filter(|letter| !is_without_look(*letter)) {
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

/// A letter that no font has, and where it would be printed.
#[derive(Debug, Clone)]
pub(super) struct Missing {
    letter: char,
    check: &'static Check,
    what: &'static str,
    place: Place,
}

/// The letters of one scheme that can't be printed.
pub(super) fn missing_of_scheme(worked: &WorkedScheme, fonts: &Fonts) -> Vec<Missing> {
    let scheme = &worked.scheme;
    let plain = |text: &str, what, place| missing_in(fonts, &checks::GLYPH_MISSING, text, what, place);
    let head = format!("{} {}", scheme.title, scheme.summary.as_deref().unwrap_or_default());
    let mut all = plain(&head, "the title or the summary", scheme.place);
    all.extend(scheme.areas.iter().flat_map(|area| plain(&area.title, "an area", area.place)));
    all.extend(scheme.pots.iter().flat_map(|pot| plain(&pot.title, "a pot", pot.place)));
    for step in &scheme.steps {
        let place = step.places.title;
        all.extend(plain(&step.title, "the title of a step", place));
        let tools: Vec<&str> = step.tools.iter().map(|tool| tool.name.as_str()).collect();
        all.extend(plain(&tools.join(" "), "the tools of a step", place));
        // Most instructions are plain: then nobody has to look for the end of their first sentence.
        let is_plain = step.card.is_none() && fonts.have_plain_markdown(step.body.markdown());
        let sentence = if is_plain { None } else { step.sentence() };
        all.extend(plain(&sentence.unwrap_or_default(), "the sentence for the card", place));
        all.extend(plain(step.optional.as_deref().unwrap_or_default(), "when a step is left out", place));
        let cautions = step.safety.join(" ");
        all.extend(missing_in(fonts, &checks::CAUTION_GLYPH_MISSING, &cautions, "a caution of a step", place));
    }
    all
}

/// The letters of a text that can't be printed.
pub(super) fn missing_in(
    fonts: &Fonts,
    check: &'static Check,
    text: &str,
    what: &'static str,
    place: Place,
) -> Vec<Missing> {
    missing(fonts, text).into_iter().map(|letter| Missing { letter, check, what, place }).collect()
}

/// What letters are told together by: those of one script are missing for one reason, a sign for its own.
type Kin = (&'static str, &'static str, Option<char>);

/// The script of a letter by its name, and a sign of no script by itself. Those that are written together, and the signs
/// among them, are one.
fn kin(check: &'static Check, letter: char) -> Kin {
    let is_wide_sign = matches!(letter, '\u{3000}'..='\u{303f}' | '\u{30fb}' | '\u{30fc}' | '\u{ff00}'..='\u{ff65}');
    match letter.script() {
        Script::Han | Script::Hiragana | Script::Katakana => (check.id, HAN, None),
        Script::Common if is_wide_sign => (check.id, HAN, None),
        script @ (Script::Common | Script::Inherited | Script::Unknown) => (check.id, script.full_name(), Some(letter)),
        script => (check.id, script.full_name(), None),
    }
}

/// The scripts of Chinese and Japanese.
const HAN: &str = "Han and kana (Chinese, Japanese)";

/// Tells of each script once, at the first place where it is missing, and of each sign that belongs to none.
pub(super) fn told(missing: &[Missing], theme: &str) -> Vec<Finding> {
    let mut all: BTreeMap<Kin, Vec<&Missing>> = BTreeMap::new();
    for one in missing {
        all.entry(kin(one.check, one.letter)).or_default().push(one);
    }
    all.iter().filter_map(|((_, script, sign), found)| finding(script, sign.is_some(), found, theme)).collect()
}

fn finding(script: &str, is_sign: bool, found: &[&Missing], theme: &str) -> Option<Finding> {
    let first = found.first()?;
    let mut letters: Vec<char> = Vec::new();
    for one in found {
        if !letters.contains(&one.letter) && letters.len() <= MOST_NAMED {
            letters.push(one.letter);
        }
    }
    let named = letters.iter().take(MOST_NAMED);
    let named: Vec<String> =
        named.map(|letter| format!("{} ({})", wording::quoted(&letter.to_string()), number(*letter))).collect();
    let more = if letters.len() > named.len() { " and more" } else { "" };
    let of_script = if is_sign { String::new() } else { format!(" of the script {script}") };
    let places: BTreeSet<Place> = found.iter().map(|one| one.place).collect();
    let elsewhere = match places.len() {
        0 | 1 => String::new(),
        2 => " and at one more place".to_owned(),
        many => format!(" and at {} more places", many - 1),
    };
    let message =
        format!("no font for printing has {}{more}{of_script}, in {}{elsewhere}", named.join(", "), first.what);
    let mend = format!(
        "name a font that has {} (TrueType or OpenType) under 'fonts' in guide.yaml, or put it into themes/{theme}/print, \
         for cards, link pictures and pages; or write {} in other letters",
        if letters.len() > 1 { "them" } else { "it" },
        if letters.len() > 1 { "them" } else { "it" },
    );
    Some(Finding::new(first.check, first.place, message, mend))
}
