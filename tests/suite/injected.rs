//! Whatever an author writes where words belong comes out as words: in every file, on every page, in the terminal.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::process::Command;

use maulstick::story::Session;
use serde_json::Value;

use crate::attacks::{self, Guide};
use crate::bench::{Bench, files_below};
use crate::structure;

/// What the attacks are compared with.
const HARMLESS: &str = "Plain words";

/// How many attacks go into one text where all are tried at once.
const AT_ONCE: usize = 8;

/// The most letters of a name.
const LONGEST_NAME: usize = 200;

/// What the guide puts behind a text so that names differ, in letters.
const ROOM: usize = 20;

/// The attacks that a text may hold, and those with characters that can't be seen, which it may not.
fn seen_and_unseen() -> (Vec<String>, Vec<String>) {
    attacks::corpus().into_iter().partition(|attack| !attack.contains(|c| c != '\r' && structure::obeyed(c)))
}

/// A text as Markdown that shows it letter by letter, in every construct that holds words.
fn in_markdown(text: &str) -> String {
    let plain = attacks::as_markdown(text);
    format!(
        "{plain}\n\n# {plain}\n\n*{plain}* and **{plain}**\n\n- {plain}\n- [ ] {plain}\n\n> {plain}\n\n| a | b |\n| --- | --- |\n| x | {plain} |\n\n\
         [{plain}](paint:bog-iron \"{plain}\")[^n]\n\n[^n]: {plain}\n"
    )
}

/// The guide with a text everywhere, published: its files.
fn published(guide: &Guide, text: &str) -> (Bench, BTreeMap<String, Vec<u8>>) {
    let bench = guide.attacked(text, &in_markdown(&format!("{text} m")));
    let run = bench.run(&["publish", "--single"]);
    assert_eq!(run.status, 0, "{text:?}: {}", run.err);
    assert_eq!(structure::hidden(&run.err), None, "{text:?}: {:?}", run.err);
    let files = files_below(&bench.path("published"));
    (bench, files)
}

/// What each file of a published guide is made of. The pages that show the guide's own source are looked at around it,
/// for it is coloured by what stands in it.
fn structures(files: &BTreeMap<String, Vec<u8>>) -> BTreeMap<&String, Option<Vec<String>>> {
    let of = |path: &String, bytes: &[u8]| structure::of(path, bytes, path.ends_with("source.html").then_some("pre"));
    files.iter().map(|(path, bytes)| (path, of(path, bytes))).collect()
}

/// Compares two published guides file by file.
fn compare(text: &str, files: &BTreeMap<&String, Option<Vec<String>>>, plain: &BTreeMap<&String, Option<Vec<String>>>) {
    let no_tag = |path: &&&String| !path.starts_with("tags/");
    assert!(files.keys().filter(no_tag).eq(plain.keys().filter(no_tag)), "{text:?} changes which files there are");
    for (path, parts) in files {
        let Some(wanted) = plain.get(path) else { continue };
        if parts != wanted {
            let (parts, wanted) = (parts.clone().unwrap_or_default(), wanted.clone().unwrap_or_default());
            let at = parts.iter().zip(&wanted).take_while(|(a, b)| a == b).count();
            let near = |parts: &[String]| parts[at.saturating_sub(3)..(at + 4).min(parts.len())].join("\n  ");
            panic!("{text:?} changes {path} at {at}:\n  {}\ninstead of\n  {}", near(&parts), near(&wanted));
        }
    }
}

/// What the terminal shows of the guide has no character that it would obey.
fn check_terminal(bench: &Bench, text: &str) {
    for arguments in [
        &["check"][..],
        &["shop", ".", "watch"],
        &["shop", ".", "watch", "--format", "md"],
        &["plan", ".", "watch"],
        &["mix", ".", "warden-night", "20-cloth"],
        &["match", ".", "bog-iron"],
    ] {
        let run = bench.run(arguments);
        assert_eq!(run.status, 0, "{arguments:?} with {text:?}: {}", run.err);
        let told = format!("{}{}", run.out, run.err);
        assert_eq!(told.chars().find(|c| structure::obeyed(*c)), None, "{arguments:?} with {text:?}: {told:?}");
    }
}

/// Publishes the guide with each text, and looks at the files and then at the bench that has them.
fn try_all(texts: impl Iterator<Item = String>, then: impl Fn(&Bench, &str)) {
    let guide = Guide::read();
    let (_kept, plain) = published(guide, HARMLESS);
    let plain = structures(&plain);
    for attack in texts {
        // How long a title is decides what fits on a line: none is shorter than what it is compared with.
        let missing = HARMLESS.len().saturating_sub(attack.chars().count());
        let text = format!("{attack}{}", "m".repeat(missing));
        let (bench, files) = published(guide, &text);
        compare(&text, &structures(&files), &plain);
        then(&bench, &text);
    }
}

#[test]
fn the_attacked_guide_has_every_key_that_there_is() {
    let guide = Guide::read();
    assert_eq!(guide.forgotten(), Vec::<String>::new());
    assert!(guide.free().len() >= 45, "{:#?}", guide.free());
}

/// The attacks joined, so many at a time as a name may have letters.
pub(crate) fn bundles(attacks: &[String]) -> Vec<String> {
    let mut bundles: Vec<String> = Vec::new();
    for attack in attacks {
        match bundles.last_mut().filter(|bundle| bundle.chars().count() + attack.chars().count() < LONGEST_NAME - ROOM)
        {
            Some(bundle) => bundle.extend([" ", attack.as_str()]),
            None => bundles.push(attack.clone()),
        }
    }
    bundles
}

#[test]
fn many_attacks_at_once_stay_words_in_every_file() {
    let (seen, _) = seen_and_unseen();
    try_all(bundles(&seen).into_iter(), check_terminal);
}

#[test]
#[ignore = "publishes a guide for each attack, which takes minutes; tests/run.sh does it"]
fn each_attack_stays_words_in_every_file() {
    // A terminal obeys single characters: the bundles hold them all.
    try_all(seen_and_unseen().0.into_iter(), |_, _| ());
}

#[test]
fn unseen_characters_are_told_at_their_place_in_every_format() {
    let guide = Guide::read();
    for text in seen_and_unseen().1 {
        let bench = guide.attacked(&text, "Words.");
        let run = bench.run(&["check"]);
        assert_eq!(run.status, 1, "{text:?}");
        assert_eq!(structure::hidden(&run.out), None, "{:?}", run.out);
        for format in ["json", "sarif"] {
            let run = bench.run(&["check", ".", "--format", format]);
            assert_eq!(structure::hidden(&run.out), None, "{:?}", run.out);
            let told: Value = serde_json::from_str(&run.out).unwrap();
            let found = told["findings"].as_array().or_else(|| told["runs"][0]["results"].as_array()).unwrap();
            let rules =
                found.iter().filter(|one| one["rule"] == "value-unreadable" || one["ruleId"] == "value-unreadable");
            assert_eq!(rules.count(), guide.free().len(), "{format} with {text:?}");
        }
    }
}

#[test]
fn where_no_text_belongs_an_attack_is_a_finding() {
    let guide = Guide::read();
    let mut session = Session::default();
    for place in guide.places().into_iter().filter(|place| !guide.free().contains(place)) {
        let only = BTreeSet::from([place.clone()]);
        for text in [
            "javascript:window.pwned=1",
            "\"><script>window.pwned=1</script>",
            "https://evil.example/\"><script>window.pwned=1</script>",
            "=1+1",
            "red;background:url(https://evil.example/a)",
        ] {
            assert!(!guide.accepts(&mut session, &only, text), "{place:?} takes {text:?}");
        }
    }
}

#[test]
fn a_key_that_an_author_chooses_holds_no_attack() {
    let guide = Guide::read();
    for (file, key) in [
        ("content/guide.yaml", "hiding-coat: "),
        ("content/paints/mere.yaml", "chalk: {"),
        ("content/tools.yaml", "mask: {"),
        ("content/schemes/warden/scheme.md", "leather: "),
        ("content/schemes/warden/10-ground.md", "2026-11-03: "),
        ("content/schemes/warden/30-leather.md", "no-final-varnish: "),
        ("content/armies/watch.yaml", "bog-iron: "),
    ] {
        for attack in
            ["<script>window.pwned=1</script>", "\\\" onload=\\\"a", "=1+1", "javascript:a", "\\e[2J", "../../a"]
        {
            let bench = guide.attacked(HARMLESS, "Words.");
            let behind = key.trim_start_matches(|c| c != ':');
            bench.replace(file, key, &format!("\"{attack}\"{behind}"));
            let run = bench.run(&["check"]);
            assert_eq!(run.status, 1, "{file} takes {attack:?} as a key: {}", run.out);
            assert_eq!(structure::hidden(&run.out), None, "{:?}", run.out);
        }
    }
}

#[test]
fn findings_that_quote_an_attack_have_the_same_shape_as_others() {
    let guide = Guide::read();
    let all: BTreeSet<_> = guide.places().into_iter().collect();
    let number = regex::Regex::new("/[0-9]+").unwrap();
    let shapes = |text: &str| {
        let bench = guide.attacked_at(&all, text, "[a](nowhere.md)");
        ["json", "sarif"].map(|format| {
            let run = bench.run(&["check", ".", "--format", format]);
            assert_eq!(run.status, 1);
            let mut parts = Vec::new();
            structure::shape(&serde_json::from_str(&run.out).unwrap(), "", &mut parts);
            parts.iter().map(|part| number.replace_all(part, "/*").into_owned()).collect::<BTreeSet<_>>()
        })
    };
    // A name of more than eighty letters is told as too long; a shorter one is looked up and not found.
    let (short, long) = (shapes("Zx"), shapes(&"Zx ".repeat(40)));
    for text in bundles(&seen_and_unseen().0) {
        let plain = if text.len() > 80 { &long } else { &short };
        assert_eq!(&shapes(&text), plain, "{text:?}");
    }
    assert_eq!(shapes("<script>\"'=1+1"), short);
}

/// An attack written as Markdown, with nothing in front of its signs.
fn bare_in_markdown(attack: &str) -> String {
    format!("{attack}\n\nwords {attack} words\n\n~~~~~~ {attack}\n{attack}\n~~~~~~\n\n")
}

#[test]
fn markdown_full_of_attacks_is_refused_or_harmless() {
    let guide = Guide::read();
    let mut session = Session::default();
    let (taken, refused): (Vec<String>, Vec<String>) = attacks::corpus()
        .iter()
        .map(|attack| bare_in_markdown(attack))
        .partition(|body| guide.accepts_body(&mut session, body));
    assert!((15..40).contains(&refused.len()), "{refused:#?}");
    for body in taken.chunks(2 * AT_ONCE).map(<[String]>::concat) {
        let bench = guide.attacked(HARMLESS, &body);
        let run = bench.run(&["publish", ".", "--single"]);
        assert_eq!(run.status, 0, "{}", run.err);
        for (path, bytes) in files_below(&bench.path("published")) {
            structure::of(&path, &bytes, None);
        }
    }
}

#[test]
#[ignore = "needs pdftotext; tests/run.sh brings it"]
fn the_printed_recipe_holds_an_attack_as_text() {
    let guide = Guide::read();
    let text = "<script>window.pwned=1</script> ) /JS (app.alert) ( =1+1";
    let (bench, _) = published(guide, text);
    let out = bench.path("card.txt");
    let status =
        Command::new("pdftotext").arg(bench.path("published/schemes/warden/card.pdf")).arg(&out).status().unwrap();
    assert!(status.success());
    let shown: String = fs::read_to_string(out).unwrap().split_whitespace().collect();
    let wanted: String = text.split_whitespace().collect();
    assert!(shown.contains(&wanted), "{shown}");
}
