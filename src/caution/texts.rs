//! The cautions in words, in each language that the program knows.
//!
//! They are embedded and are not read from a theme: a caution can't get lost with a file.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

use super::statements::statement_in;
use super::{Action, CautionKind, Gear};

/// Every language with its texts; the first one is used where a language is not here.
static LANGUAGES: LazyLock<Vec<CautionTexts>> = LazyLock::new(|| {
    let files = [
        ("en", include_str!("texts/en.yaml")),
        ("de", include_str!("texts/de.yaml")),
        ("fr", include_str!("texts/fr.yaml")),
        ("es", include_str!("texts/es.yaml")),
    ];
    files.into_iter().filter_map(|(language, yaml)| CautionTexts::read(language, yaml)).collect()
});

/// What is said if all else fails, so that no caution is ever left blank.
static LAST_RESORT: LazyLock<CautionTexts> = LazyLock::new(|| CautionTexts {
    language: "en",
    labels: Labels {
        cautions: "Cautions".to_owned(),
        by_step: "Cautions by step".to_owned(),
        first: "Do first".to_owned(),
        author_note: "The author adds".to_owned(),
        statements: "Statements on the products".to_owned(),
        for_step: "For step".to_owned(),
        for_steps: "For steps".to_owned(),
    },
    closing: "Follow the safety data sheets of your products, your local rules and qualified people.".to_owned(),
    cautions: BTreeMap::new(),
    gear: BTreeMap::new(),
    actions: BTreeMap::new(),
    any: Caution {
        title: "Caution".to_owned(),
        text: "This step can hurt someone. Read the safety data sheet of every product first.".to_owned(),
    },
});

/// All texts of one language.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CautionTexts {
    language: &'static str,
    labels: Labels,
    closing: String,
    cautions: BTreeMap<CautionKind, Caution>,
    gear: BTreeMap<Gear, Caution>,
    actions: BTreeMap<Action, String>,
    /// Stands in for a caution without a text; a test sees to it that there is none.
    any: Caution,
}

/// One caution in words.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// A word or two for its heading.
    pub title: String,
    /// What can happen and what to do about it, in one or two short sentences.
    pub text: String,
}

/// The words around the cautions.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Labels {
    /// The heading over all cautions.
    pub cautions: String,
    /// The heading over cautions that are followed by the numbers of their steps.
    pub by_step: String,
    /// What comes before the line of what to do.
    pub first: String,
    /// What comes before a note of the author's own.
    pub author_note: String,
    /// The heading over the official statements.
    pub statements: String,
    /// What comes before the number of one step.
    for_step: String,
    /// What comes before the numbers of several steps.
    for_steps: String,
}

impl Labels {
    /// What comes before the numbers of so many steps.
    pub fn for_steps(&self, count: usize) -> &str {
        if count == 1 { &self.for_step } else { &self.for_steps }
    }
}

/// A file of texts as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TextFile {
    labels: Labels,
    closing: String,
    cautions: BTreeMap<CautionKind, Caution>,
    gear: BTreeMap<Gear, Caution>,
    actions: BTreeMap<Action, String>,
}

impl CautionTexts {
    /// The texts of a language by its tag, such as `de` or `de-AT`; English where the program does not know it.
    pub fn of(language: &str) -> &'static Self {
        let main = language.split(['-', '_']).next().unwrap_or_default();
        let known = LANGUAGES.iter().find(|texts| texts.language.eq_ignore_ascii_case(main));
        known.or(LANGUAGES.first()).unwrap_or(&LAST_RESORT)
    }

    /// The tag of the language that the texts are really in, for the page's `lang` where it differs.
    pub fn language(&self) -> &'static str {
        self.language
    }

    /// The official text of a statement in this language, or in English, and the tag of the language that it is in;
    /// `None` for a code that is not known, which a finding tells.
    pub fn statement(&self, code: &str) -> Option<(Cow<'static, str>, &'static str)> {
        statement_in(self.language, code)
    }

    /// The words around the cautions.
    pub fn labels(&self) -> &Labels {
        &self.labels
    }

    /// The sentence below all cautions: data sheets, local rules and qualified people come before the guide.
    pub fn closing(&self) -> &str {
        &self.closing
    }

    /// One caution in words.
    pub fn caution(&self, kind: CautionKind) -> &Caution {
        self.cautions.get(&kind).unwrap_or(&self.any)
    }

    /// A piece of safety gear in words: what it is called, and which sort it has to be.
    pub fn gear(&self, gear: Gear) -> &Caution {
        self.gear.get(&gear).unwrap_or(&self.any)
    }

    /// One action in two to four words.
    pub fn action(&self, action: Action) -> &str {
        self.actions.get(&action).map_or(&self.any.title, String::as_str)
    }

    /// The line of what to do as plain text: `Do first: Nitrile gloves · Window open`; empty where there is nothing.
    pub fn to_do(&self, actions: &[Action]) -> String {
        if actions.is_empty() {
            return String::new();
        }
        let said: Vec<&str> = actions.iter().map(|action| self.action(*action)).collect();
        format!("{}: {}", self.labels.first, said.join(" · "))
    }

    /// A language from its file; `None` if it can't be read, which a test rules out.
    fn read(language: &'static str, yaml: &str) -> Option<Self> {
        let TextFile { labels, closing, cautions, gear, actions } = serde_yaml::from_str(yaml).ok()?;
        Some(Self { language, labels, closing, cautions, gear, actions, any: LAST_RESORT.any.clone() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// For each language: what the closing line must name, and what no caution may say.
    const WORDS: &[(&str, [&str; 3], &[&str])] = &[
        (
            "en",
            ["safety data sheet", "local rules", "qualified people"],
            &["is safe", "are safe", "safely", "harmless", "no risk", "no danger", "not dangerous", "non-toxic"],
        ),
        (
            "de",
            ["Sicherheitsdatenbl", "örtlichen Vorschriften", "Fachleuten"],
            &["sicher ", "sicher.", "harmlos", "unbedenklich", "ungefährlich", "gefahrlos", "ungiftig"],
        ),
        (
            "fr",
            ["fiches de données de sécurité", "règles locales", "personnes qualifiées"],
            &["sans danger", "sans risque", "inoffensi", "sûr ", "non toxique"],
        ),
        (
            "es",
            ["fichas de datos de seguridad", "normas locales", "personas cualificadas"],
            &["segur", "inofensiv", "sin peligro", "sin riesgo", "no es tóxic"],
        ),
    ];

    #[test]
    fn every_language_says_every_caution_in_few_words() {
        assert_eq!(LANGUAGES.len(), 4, "a file of texts can't be read");
        for texts in LANGUAGES.iter() {
            let kinds: Vec<CautionKind> = texts.cautions.keys().copied().collect();
            assert_eq!(kinds, CautionKind::ALL, "{}", texts.language);
            for (kind, Caution { title, text }) in &texts.cautions {
                assert!(!title.trim().is_empty() && title.chars().count() <= 24, "{} {kind}: {title}", texts.language);
                let sentences = text.matches(". ").count() + usize::from(text.ends_with('.'));
                assert!((1..=2).contains(&sentences), "{} {kind}: {sentences} sentences", texts.language);
                let (length, room) = (text.chars().count(), if texts.language == "en" { 190 } else { 230 });
                assert!(length <= room, "{} {kind}: {length} characters", texts.language);
            }
            assert_eq!(texts.gear.keys().copied().collect::<Vec<_>>(), Gear::ALL, "{}", texts.language);
            let Labels { cautions, by_step, first, author_note, statements, for_step, for_steps } = &texts.labels;
            assert!(
                [cautions, by_step, first, author_note, statements, for_step, for_steps]
                    .iter()
                    .all(|label| !label.trim().is_empty())
            );
        }
    }

    #[test]
    fn every_action_is_said_in_two_to_four_words() {
        for texts in LANGUAGES.iter() {
            assert_eq!(texts.actions.keys().copied().collect::<Vec<_>>(), Action::ALL, "{}", texts.language);
            for (action, label) in &texts.actions {
                let words = label.split_whitespace().count();
                assert!(
                    (1..=4).contains(&words) && label.chars().count() <= 28,
                    "{} {action}: {label}",
                    texts.language
                );
            }
        }
        let said = CautionTexts::of("en").to_do(&[Action::Gloves, Action::FreshAir]);
        assert_eq!(said, "Do first: Nitrile gloves · Window open");
    }

    #[test]
    fn the_closing_line_defers_to_those_who_know() {
        for (language, names, _) in WORDS {
            let closing = CautionTexts::of(language).closing();
            assert!(names.iter().all(|name| closing.contains(name)), "{closing}");
            assert!(closing.chars().count() <= 160, "{closing}");
        }
    }

    #[test]
    fn no_caution_says_that_something_is_safe() {
        for (language, _, forbidden) in WORDS {
            let texts = CautionTexts::of(language);
            let cautions = texts.cautions.iter().map(|(kind, text)| (kind.name(), text));
            for (kind, Caution { title, text }) in
                cautions.chain(texts.gear.iter().map(|(kind, text)| (kind.name(), text)))
            {
                let said = format!("{title} {text}").replace("datos de seguridad", "").to_lowercase();
                let found = forbidden.iter().find(|word| said.contains(**word));
                assert_eq!(found, None, "{language} {kind}");
            }
        }
    }

    #[test]
    fn the_languages_are_not_copies_of_each_other() {
        for kind in CautionKind::ALL {
            let mut texts: Vec<&str> = LANGUAGES.iter().map(|texts| texts.caution(*kind).text.as_str()).collect();
            texts.sort_unstable();
            texts.dedup();
            assert_eq!(texts.len(), LANGUAGES.len(), "{kind}");
        }
    }

    #[test]
    fn a_language_is_found_by_its_tag_and_english_stands_in() {
        for (tag, language) in [("de", "de"), ("DE-at", "de"), ("fr_CA", "fr"), ("es", "es"), ("cy", "en"), ("", "en")]
        {
            assert_eq!(CautionTexts::of(tag).language(), language, "{tag}");
        }
    }

    #[test]
    fn the_last_resort_leaves_nothing_blank() {
        assert!(!LAST_RESORT.caution(CautionKind::SprayMist).text.is_empty());
        assert!(LAST_RESORT.closing().contains("safety data sheet"));
    }
}
