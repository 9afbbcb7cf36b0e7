//! An author's own cautions. A word such as "none" is no caution: readers would take it for the author's word that nothing
//! can hurt them.

use super::ResolveDesk;
use crate::guide::checks;
use crate::report::{Finding, Placed, wording};

/// What says in one word that there is nothing to say, in small letters.
const NOTHING: &[&str] = &[
    "none",
    "no",
    "nope",
    "nothing",
    "nil",
    "null",
    "n/a",
    "na",
    "n.a",
    "not applicable",
    "false",
    "true",
    "yes",
    "y",
    "n",
    "on",
    "off",
    "ok",
    "okay",
    "safe",
    "harmless",
    "optional",
    "tbd",
    "todo",
    "none needed",
    "not needed",
    "nothing special",
    "keine",
    "kein",
    "keiner",
    "keines",
    "nichts",
    "nein",
    "ja",
    "entfällt",
    "sicher",
    "harmlos",
    "ungefährlich",
    "nicht nötig",
    "unnötig",
    "aucun",
    "aucune",
    "rien",
    "non",
    "oui",
    "néant",
    "sans",
    "sans objet",
    "sûr",
    "sans danger",
    "inoffensif",
    "ninguno",
    "ninguna",
    "nada",
    "sí",
    "si",
    "sin",
    "no aplica",
    "no procede",
    "no hay",
    "seguro",
    "inofensivo",
    "sin peligro",
];

/// The cautions of a list; one that says nothing is reported and left out.
pub(super) fn read(written: Option<&Placed<Vec<String>>>, desk: &mut ResolveDesk) -> Vec<String> {
    let Some(written) = written else { return Vec::new() };
    let (empty, kept): (Vec<&String>, Vec<&String>) = written.value.iter().partition(|text| says_nothing(text));
    for text in empty {
        let message = format!("{} is no caution", wording::quoted(text));
        let mend = if written.value.len() == 1 {
            "leave 'safety' out: what the step needs is shown anyway; or say what has to be done beyond it"
        } else {
            "take it out of the list, or say what has to be done"
        };
        desk.tell(Finding::new(&checks::CAUTION_EMPTY, written.place, message, mend));
    }
    kept.into_iter().cloned().collect()
}

/// Whether a text has no word, or only one that stands for nothing.
fn says_nothing(text: &str) -> bool {
    let bare = text.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
    !bare.chars().any(char::is_alphabetic) || NOTHING.contains(&bare.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_for_nothing_is_no_caution_and_a_sentence_is_one() {
        for text in ["none", "No.", "-", "—", "n/a", "N.A.", "true", "Keine", "Aucune !", "ninguna", "0", "?"] {
            assert!(says_nothing(text), "{text}");
        }
        for text in ["No open flame.", "Nothing to eat near it.", "Gloves", "Keine Kinder.", "手袋"] {
            assert!(!says_nothing(text), "{text}");
        }
    }
}
