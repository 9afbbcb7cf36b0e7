//! The official hazard and precautionary statements, by their codes.

use std::borrow::Cow;
use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Codes with their texts.
type Table = BTreeMap<&'static str, &'static str>;

static TABLE: LazyLock<Table> = LazyLock::new(|| table(include_str!("statements.tsv")));

/// The other languages in which the regulation has been written out here; not all of them have every code.
static OTHERS: LazyLock<[(&str, Table); 3]> = LazyLock::new(|| {
    [
        ("de", table(include_str!("statements.de.tsv"))),
        ("fr", table(include_str!("statements.fr.tsv"))),
        ("es", table(include_str!("statements.es.tsv"))),
    ]
});

/// Every line is a code, a tab and the text; a line that begins with `#` is a comment.
fn table(file: &'static str) -> Table {
    let lines = file.lines().filter(|line| !line.starts_with('#'));
    lines.filter_map(|line| line.split_once('\t')).collect()
}

/// The official English text of a statement, if the code is one of the UN GHS or of the CLP regulation.
pub fn statement(code: &str) -> Option<&'static str> {
    TABLE.get(code).copied()
}

/// The official English text of a code as data sheets write it: a joined code that has no text of its own says what
/// its parts say.
pub fn statement_text(code: &str) -> Option<Cow<'static, str>> {
    if let Some(text) = statement(code) {
        return Some(Cow::Borrowed(text));
    }
    let parts: Option<Vec<&str>> = code.split('+').map(statement).collect();
    parts.map(|texts| Cow::Owned(texts.join(" ")))
}

/// The official text of a code in a language where it is known there, otherwise in English, with the tag of the language
/// that it is in; `None` for a code that is not known.
pub(super) fn statement_in(language: &str, code: &str) -> Option<(Cow<'static, str>, &'static str)> {
    let own = OTHERS.iter().find(|(known, _)| *known == language);
    let in_own = own.and_then(|(tag, table)| {
        let parts = || code.split('+').map(|part| table.get(part).copied()).collect::<Option<Vec<_>>>();
        let whole = table.get(code).map(|text| Cow::Borrowed(*text));
        Some((whole.or_else(|| parts().map(|texts| Cow::Owned(texts.join(" "))))?, *tag))
    });
    in_own.or_else(|| Some((statement_text(code)?, "en")))
}

/// The known code that is most like one that is not known; of several, one that begins alike, because the first
/// digits name the class of hazard.
pub(super) fn nearest(code: &str) -> Option<&'static str> {
    let folded = code.to_uppercase();
    let allowed = (code.chars().count() / 3).max(1);
    let near = TABLE.keys().copied().filter_map(|known| {
        let other = known.to_uppercase();
        let distance = strsim::osa_distance(&folded, &other);
        let alike = folded.chars().zip(other.chars()).take_while(|(one, two)| one == two).count();
        (distance <= allowed).then_some((distance, Reverse(alike), known))
    });
    near.min().map(|(_, _, known)| known)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::FromText;
    use crate::source::HazardCode;

    #[test]
    fn every_line_is_a_readable_code_that_stands_once_and_a_text() {
        let lines: Vec<&str> = include_str!("statements.tsv").lines().filter(|line| !line.starts_with('#')).collect();
        assert_eq!(lines.len(), TABLE.len(), "a code stands twice, or a line has no tab");
        for (code, text) in TABLE.iter() {
            assert_eq!(HazardCode::from_text(code), Ok(HazardCode((*code).to_owned())));
            assert!(text.ends_with(['.', ':', '…']), "{code}: {text}");
            assert_eq!(text.trim(), *text, "{code}");
        }
    }

    #[test]
    fn other_languages_say_what_the_english_table_has() {
        for (language, own) in OTHERS.iter() {
            assert!(own.len() > 60, "{language}");
            for (code, text) in own {
                assert!(TABLE.contains_key(code), "{language}: {code}");
                assert!(text.ends_with(['.', ':', '…']) && text.trim() == *text, "{language}: {code} {text}");
            }
        }
        let (text, language) = statement_in("de", "H225").unwrap();
        assert!(text.contains("entzündbar") && language == "de");
        assert_eq!(statement_in("it", "H225").unwrap().1, "en");
        assert_eq!(statement_in("de", "H999"), None);
    }

    #[test]
    fn joined_codes_are_made_of_known_ones() {
        let joined = TABLE.keys().filter(|code| code.contains('+'));
        for code in joined {
            assert!(code.split('+').all(|part| statement(part).is_some()), "{code}");
        }
    }

    #[test]
    fn texts_are_found() {
        assert_eq!(statement("H226"), Some("Flammable liquid and vapour."));
        assert_eq!(statement("H336"), Some("May cause drowsiness or dizziness."));
        assert_eq!(statement("EUH066"), Some("Repeated exposure may cause skin dryness or cracking."));
        assert_eq!(statement("H999"), None);
    }

    #[test]
    fn a_joined_code_without_a_text_of_its_own_says_what_its_parts_say() {
        let text = "IF SWALLOWED: Immediately call a POISON CENTER/doctor/… Do NOT induce vomiting.";
        assert_eq!(statement_text("P301+P310+P331").as_deref(), Some(text));
        assert_eq!(
            statement_text("P362+P364").as_deref(),
            Some("Take off contaminated clothing and wash it before reuse.")
        );
        assert_eq!(statement_text("P301+P999"), None);
    }

    #[test]
    fn the_nearest_code_is_found() {
        assert_eq!(nearest("H361FD"), Some("H361fd"));
        assert_eq!(nearest("EUH226"), Some("EUH206"));
        assert_eq!(nearest("H227a"), Some("H227"));
        assert_eq!(nearest("H239"), Some("H230"));
        assert_eq!(nearest("P999"), None);
    }
}
