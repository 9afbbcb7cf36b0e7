//! Small helpers for messages as an author reads them: lists, counts, the nearest known name.

use std::borrow::Cow;
use std::fmt::Display;

/// A name as it is shown in a message: in single quotes.
pub fn quoted(name: &str) -> String {
    format!("'{name}'")
}

/// `'a', 'b' and 'c'`.
pub fn listed<T: AsRef<str>>(names: impl IntoIterator<Item = T>) -> String {
    joined(names, "and")
}

/// `'a', 'b' or 'c'`.
pub fn either<T: AsRef<str>>(names: impl IntoIterator<Item = T>) -> String {
    joined(names, "or")
}

fn joined<T: AsRef<str>>(names: impl IntoIterator<Item = T>, word: &str) -> String {
    let quoted: Vec<String> = names.into_iter().map(|name| quoted(name.as_ref())).collect();
    match quoted.split_last() {
        None => String::new(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} {word} {last}", rest.join(", ")),
    }
}

/// `1 step`, `3 steps`.
pub fn counted(count: impl Display, one: &str, many: &str) -> String {
    let count = count.to_string();
    let noun = if count == "1" { one } else { many };
    format!("{count} {noun}")
}

/// The longest name, in characters, that is compared with others: comparing takes time with the square of the length.
const LONGEST_COMPARED: usize = 200;

/// The fewest letters of a known name that counts when a longer one begins or ends with it.
const FEWEST_KEPT: usize = 4;

/// The known name that is most like a misspelt one, if any is like it at all.
///
/// One slip of the pen comes first. Then a known name that the other begins or ends with, the longest one: who writes
/// `paintbrush` means `brush` and not `airbrush`. Then the one of which the fewest letters differ, at most a third.
pub fn nearest<'a>(name: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let folded = name.to_lowercase().replace(['_', ' '], "-");
    let letters = folded.chars().count();
    let allowed = (letters / 3).max(1);
    if letters > LONGEST_COMPARED {
        return None;
    }
    let mut kept: Option<&str> = None;
    // Of two that are as near, the one that goes on as the name begins: who writes `zone` means `zones` and not `gone`.
    let mut like: Option<(usize, bool, &str)> = None;
    for candidate in known {
        if holds_at_an_end(&folded, candidate) && kept.is_none_or(|kept| candidate.len() > kept.len()) {
            kept = Some(candidate);
        }
        if candidate.chars().take(letters + allowed + 1).count().abs_diff(letters) <= allowed {
            let distance = strsim::osa_distance(&folded, candidate);
            let begins_otherwise = !candidate.starts_with(&folded);
            let this = (distance <= allowed).then_some((distance, begins_otherwise, candidate));
            like = like.into_iter().chain(this).min();
        }
    }
    let slip = like.filter(|(distance, ..)| *distance <= 1);
    slip.map(|(.., candidate)| candidate).or(kept).or(like.map(|(.., candidate)| candidate))
}

fn holds_at_an_end(name: &str, known: &str) -> bool {
    (name.starts_with(known) || name.ends_with(known)) && known.chars().nth(FEWEST_KEPT - 1).is_some()
}

/// The mend for a misspelt name: the nearest known one, or else the list to choose from.
///
/// `what` is the kind of thing with its article, as in `a stage`.
pub fn did_you_mean(name: &str, what: &str, known: &[&str]) -> String {
    match nearest(name, known.iter().copied()) {
        Some(near) => format!("did you mean {}?", quoted(near)),
        None if known.is_empty() => format!("there is no {} yet", what.split_once(' ').map_or(what, |(_, kind)| kind)),
        None if known.len() <= 20 => format!("write {}", either(known)),
        None => look_up(what, known.len()),
    }
}

/// The mend for a misspelt name where there are too many to list.
pub fn look_up(what: &str, count: usize) -> String {
    format!("look up the name of {what}: there are {count}")
}

/// Whether a character shows nothing and may upset what is around it: controls, marks that turn the direction of
/// writing, the separators that script and some readers take for line breaks, marks of notes between lines, and what
/// XML 1.0 has no place for. Line breaks and tabs are none of them, nor are spaces without width and joiners.
pub fn is_hidden(c: char) -> bool {
    let turns = matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}' | '\u{61c}');
    let breaks = matches!(c, '\u{2028}' | '\u{2029}' | '\u{fff9}'..='\u{fffb}');
    (c.is_control() && !matches!(c, '\n' | '\r' | '\t')) || turns || breaks || matches!(c, '\u{fffe}' | '\u{ffff}')
}

/// A text as readers are shown it: for every [hidden](is_hidden) character the sign for one that is missing.
pub fn shown(text: &str) -> Cow<'_, str> {
    if text.chars().any(is_hidden) { text.replace(is_hidden, "\u{fffd}").into() } else { text.into() }
}

/// Whether a text has nothing that leaves ink: only spaces, joiners, marks that choose a look, and letters that are blank.
pub fn is_blank(text: &str) -> bool {
    let leaves_none = |c: char| {
        let joins = matches!(c, '\u{ad}' | '\u{34f}' | '\u{200b}'..='\u{200d}' | '\u{2060}'..='\u{2064}' | '\u{feff}');
        let chooses = matches!(c, '\u{180b}'..='\u{180f}' | '\u{fe00}'..='\u{fe0f}' | '\u{e0000}'..='\u{e0fff}');
        let is_empty =
            matches!(c, '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}' | '\u{2800}' | '\u{3164}' | '\u{ffa0}');
        c.is_whitespace() || is_hidden(c) || joins || chooses || is_empty
    };
    text.chars().all(leaves_none)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_and_counts_read_as_english() {
        assert_eq!(listed(["a"]), "'a'");
        assert_eq!(listed(["a", "b", "c"]), "'a', 'b' and 'c'");
        assert_eq!(either(["a", "b"]), "'a' or 'b'");
        assert_eq!(counted(1, "step", "steps"), "1 step");
        assert_eq!(counted(2, "step", "steps"), "2 steps");
    }

    #[test]
    fn the_nearest_name_is_found_and_a_strange_one_is_not() {
        assert_eq!(nearest("Glase", ["glaze", "layer"]), Some("glaze"));
        assert_eq!(nearest("panel_wash", ["panel-wash", "wash"]), Some("panel-wash"));
        assert_eq!(nearest("zone", ["gone", "zones"]), Some("zones"));
        assert_eq!(nearest("helicopter", ["glaze", "layer"]), None);
    }

    #[test]
    fn a_known_name_at_either_end_comes_before_a_likeness_and_behind_a_slip() {
        let techniques = ["brush", "airbrush", "spray-can", "drybrush", "hand"];
        for (written, meant) in [
            ("paintbrush", Some("brush")),
            ("brushing", Some("brush")),
            ("airbrushing", Some("airbrush")),
            ("wet drybrush", Some("drybrush")),
            ("airbursh", Some("airbrush")),
            ("brsh", Some("brush")),
            ("spraycan", Some("spray-can")),
            ("trowel", None),
        ] {
            assert_eq!(nearest(written, techniques), meant, "{written}");
        }
        assert_eq!(nearest("clear-ambre", ["clear", "clear-amber"]), Some("clear-amber"), "one slip");
        assert_eq!(nearest("trap", ["rap", "tr"]), Some("rap"), "too short a name to be kept");
    }
}
