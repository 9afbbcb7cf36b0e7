//! The words of the interface: every language says the same things, and nothing that a page asks for is missing.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;

use maulstick::report::{Group, Level};
use maulstick::trade::{Family, Hiding, Kind, Reach, Sheen, Skill, Stage, Technique, ToolKind};
use serde_yaml::from_str;

/// The languages that the program brings words in.
const LANGUAGES: [&str; 4] = ["en", "de", "fr", "es"];

/// Keys that only the grammar of a language uses.
const GRAMMAR: [&str; 6] =
    ["grammar.decimal", "grammar.singular-up-to", "grammar.zero", "grammar.day", "grammar.money", "grammar.money-code"];

type Words = BTreeMap<String, String>;

fn theme() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("themes/chart")
}

/// The words of a language by keys such as `nav.paints`.
fn words(language: &str) -> Words {
    let text = fs::read_to_string(theme().join(format!("words/{language}.yaml"))).unwrap();
    let tree: serde_json::Value = from_str(&text).unwrap();
    let mut words = Words::new();
    gather("", &tree, &mut words);
    words
}

fn gather(path: &str, node: &serde_json::Value, words: &mut Words) {
    match node {
        serde_json::Value::Object(inner) => {
            for (key, value) in inner {
                let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                gather(&path, value, words);
            }
        }
        serde_json::Value::String(text) => {
            words.insert(path.to_owned(), text.clone());
        }
        other => panic!("{path} is {other}, not a text"),
    }
}

fn placeholders(text: &str) -> BTreeSet<&str> {
    text.split('{').skip(1).filter_map(|part| part.split_once('}')).map(|(name, _)| name).collect()
}

fn templates() -> Vec<(String, String)> {
    let files = fs::read_dir(theme().join("sheets")).unwrap().map(|entry| entry.unwrap().path());
    files
        .map(|path| (path.file_name().unwrap().to_string_lossy().into_owned(), fs::read_to_string(&path).unwrap()))
        .collect()
}

/// One `say(…)` of a template: its key, whether something is added to the key, and the names that it fills.
struct Asked {
    key: String,
    open: bool,
    fills: BTreeSet<String>,
}

/// All `say(…)` of a template, the ones inside another one too.
fn asked(template: &str) -> Vec<Asked> {
    const CALL: &str = "say(key=\"";
    template.match_indices(CALL).map(|(at, _)| ask(&template[at + CALL.len()..])).collect()
}

fn ask(rest: &str) -> Asked {
    let (key, rest) = rest.split_once('"').unwrap();
    let mut depth = 1;
    let end = rest.find(|letter| {
        depth += match letter {
            '(' => 1,
            ')' => -1,
            _ => 0,
        };
        depth == 0
    });
    let arguments = &rest[..end.unwrap()];
    let mut depth = 0;
    let mut fills = BTreeSet::new();
    for (at, letter) in arguments.char_indices() {
        match letter {
            '(' => depth += 1,
            ')' => depth -= 1,
            '=' if depth == 0 => {
                let name = arguments[..at].rsplit([',', ' ']).next().unwrap();
                fills.insert(name.to_owned());
            }
            _ => {}
        }
    }
    Asked { key: key.to_owned(), open: arguments.trim_start().starts_with('~'), fills }
}

#[test]
fn every_language_has_the_same_keys_and_placeholders() {
    let english = words("en");
    assert!(english.len() > 250, "only {} words", english.len());
    for language in LANGUAGES {
        let own = words(language);
        let missing: Vec<&String> = english.keys().filter(|key| !own.contains_key(*key)).collect();
        assert!(missing.is_empty(), "{language} lacks {missing:?}");
        let strange: Vec<&String> = own.keys().filter(|key| !english.contains_key(*key)).collect();
        assert!(strange.is_empty(), "{language} has {strange:?}, which English does not have");
        for (key, text) in &own {
            assert!(!text.trim().is_empty(), "{key} is empty in {language}");
            assert_eq!(placeholders(text), placeholders(&english[key]), "{key} in {language}");
        }
    }
}

#[test]
fn no_language_was_left_in_english() {
    let english = words("en");
    for language in &LANGUAGES[1..] {
        let own = words(language);
        // Gaps, signs and units read alike in all languages.
        let is_word =
            |word: &&str| !word.contains('{') && word.chars().filter(|letter| letter.is_alphabetic()).count() > 1;
        let sentences: Vec<&String> = own
            .keys()
            .filter(|key| english[*key].split(' ').filter(is_word).count() > 2 && own[*key] == english[*key])
            .collect();
        assert!(sentences.is_empty(), "{sentences:?} is English in {language}");
    }
}

#[test]
fn every_word_that_a_template_asks_for_is_there_and_filled() {
    let english = words("en");
    let mut count = 0;
    for (name, template) in templates() {
        for Asked { key, open, fills } in asked(&template) {
            count += 1;
            if open {
                let below = english.keys().any(|known| known.starts_with(&key));
                assert!(key.ends_with('.') && below, "{name} asks for words below '{key}'");
                continue;
            }
            let forms =
                if fills.contains("n") { vec![format!("{key}.one"), format!("{key}.many")] } else { vec![key.clone()] };
            for form in forms {
                let text = english.get(&form).unwrap_or_else(|| panic!("{name} asks for '{form}', which is not there"));
                let wanted: BTreeSet<String> = placeholders(text).into_iter().map(str::to_owned).collect();
                assert_eq!(wanted, fills, "{form} in {name}");
            }
        }
    }
    assert!(count > 100, "only {count} words are asked for");
}

#[test]
fn every_word_is_asked_for() {
    let templates = templates();
    let all: Vec<Asked> = templates.iter().flat_map(|(_, template)| asked(template)).collect();
    let below = [
        "month.",
        "unit.",
        "currency.",
        "slip.",
        "card.",
        "rest.",
        "hue.",
        "drawer.",
        "grade.",
        "short-day.",
        "short-month.",
        "tool.",
        "laid.",
        "purpose.",
    ];
    let code = crate::house_rules::all_code();
    let by_program = |key: &str| {
        GRAMMAR.contains(&key)
            || below.iter().any(|start| key.starts_with(start))
            || code.contains(&format!("\"{key}\""))
    };
    for key in words("en").keys() {
        let whole = key.trim_end_matches(".one").trim_end_matches(".many");
        if by_program(key) || by_program(whole) {
            continue;
        }
        let used = all.iter().any(|asked| if asked.open { key.starts_with(&asked.key) } else { asked.key == whole });
        assert!(used, "no template asks for '{key}'");
    }
}

#[test]
fn every_rest_has_its_word_and_no_word_is_of_none() {
    let rests: BTreeSet<String> = maulstick::film::Reason::ALL
        .iter()
        .map(|reason| reason.name())
        .chain(["wet"])
        .map(|name| format!("rest.{name}"))
        .collect();
    let said: BTreeSet<String> = words("en").keys().filter(|key| key.starts_with("rest.")).cloned().collect();
    assert_eq!(said, rests);
    let reasons = || maulstick::film::Reason::ALL.iter().map(|reason| format!("rest-for.{}", reason.name()));
    let said: BTreeSet<String> = words("en").keys().filter(|key| key.starts_with("rest-for.")).cloned().collect();
    assert_eq!(said, reasons().collect());
    let english = words("en");
    assert_eq!(english["rest-for.over-decal"], "before it is sealed");
    for reason in reasons() {
        assert!(english[&reason].starts_with("before "), "{reason} stands behind a time: {}", english[&reason]);
    }
}

#[test]
fn every_word_of_the_till_slip_is_there_and_said() {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src/tell/shopping");
    let code: String = fs::read_dir(folder)
        .unwrap()
        .filter_map(|entry| fs::read_to_string(entry.unwrap().path()).ok())
        .collect::<Vec<_>>()
        .concat();
    let said: BTreeSet<&str> =
        code.split("\"slip.").skip(1).filter_map(|rest| rest.split_once('"')).map(|(key, _)| key).collect();
    let english = words("en");
    let there: BTreeSet<&str> = english
        .keys()
        .filter_map(|key| key.strip_prefix("slip."))
        .map(|key| key.trim_end_matches(".one").trim_end_matches(".many"))
        .collect();
    assert_eq!(said, there);
}

#[test]
fn every_word_that_the_script_says_is_handed_to_it() {
    let folder = theme().join("script");
    let handed = fs::read_to_string(theme().join("sheets/words.js")).unwrap();
    let mut count = 0;
    for file in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.is_file()) {
        let script = fs::read_to_string(&file).unwrap();
        for (call, forms) in [("say(\"", &[""][..]), ("plural(\"", &[".one", ".many"])] {
            for key in script.split(call).skip(1).filter_map(|rest| rest.split('"').next()) {
                count += 1;
                for form in forms {
                    assert!(handed.contains(&format!("\"{key}{form}\": ")), "{key}{form} of {}", file.display());
                }
            }
        }
    }
    assert!(count > 40, "only {count} words");
}

#[test]
fn every_name_of_every_closed_list_has_its_word() {
    let english = words("en");
    let months: Vec<String> = (1..=12).map(|month| format!("{month:02}")).collect();
    let months: Vec<&str> = months.iter().map(String::as_str).collect();
    let groups: Vec<String> =
        Group::ALL.iter().map(|group| serde_json::to_value(group).unwrap().as_str().unwrap().to_owned()).collect();
    let groups: Vec<&str> = groups.iter().map(String::as_str).collect();
    let levels = [Level::Error, Level::Warning, Level::Note].map(Level::word);
    let days = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
    let lists: [(&str, &[&str]); 18] = [
        ("stage", Stage::NAMES),
        ("stage-about", Stage::NAMES),
        ("technique", Technique::NAMES),
        ("reach", Reach::NAMES),
        ("kind", Kind::NAMES),
        ("family", Family::NAMES),
        ("hiding", Hiding::NAMES),
        ("sheen", Sheen::NAMES),
        ("level", Skill::NAMES),
        ("tool-kind", ToolKind::NAMES),
        ("group", &groups),
        ("finding", &levels),
        ("day", &days),
        ("short-day", &days),
        ("month", &months),
        ("short-month", &months),
        ("tool", Technique::NAMES),
        ("unit", &["day", "hour", "minute", "second"]),
    ];
    for (below, names) in lists {
        for name in names {
            assert!(english.contains_key(&format!("{below}.{name}")), "there is no word {below}.{name}");
        }
    }
}
