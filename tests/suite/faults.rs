//! Ten different faults in the demo guide: each is told once, at its line, in one run, in every format.

use crate::bench::{self, Bench};
use serde_json::Value;

/// Rule, file, what is replaced, by what, and a text on the line where the finding must stand.
const FAULTS: &[(&str, &str, &str, &str, &str)] = &[
    ("unknown-key", "content/guide.yaml", "summary:", "sumary:", "sumary:"),
    ("unknown-word", "content/schemes/fen-warden/30-", "stage: basecoat", "stage: basecoot", "basecoot"),
    ("value-unreadable", "content/schemes/fen-warden/50-", "wait: ", "wait: 3 weeks # ", "3 weeks"),
    ("unknown-paint", "content/schemes/heron-rider/30-", "use: otter-strap", "use: otter-strop", "otter-strop"),
    ("unknown-area", "content/schemes/heron-rider/40-", "areas: [", "areas: [wingtip, ", "wingtip"),
    ("area-shares", "content/schemes/lantern-pier/scheme.md", "share: 45%", "share: 46%", "areas:"),
    ("missing-key", "content/schemes/lantern-pier/40-", "title: ", "# title: ", ""),
    ("picture-missing", "content/schemes/reed-boat/scheme.md", "photos/finished.jpg", "photos/finisht.jpg", "finisht"),
    ("dead-link", "content/pages/about-the-club.md", "](", "](nowhere.md) [x](", "nowhere.md"),
    ("tool-not-listed", "content/schemes/reed-boat/20-", "tools: [", "tools: [left-handed-spanner, ", "left-handed"),
];

/// The one file whose path begins so.
fn the_file(bench: &Bench, start: &str) -> String {
    let files = bench::files_below(&bench.path(""));
    let mut found = files.keys().filter(|path| path.starts_with(start));
    let first = found.next().unwrap_or_else(|| panic!("no file begins with {start}"));
    assert!(found.next().is_none(), "more than one file begins with {start}");
    first.clone()
}

/// The demo guide with all faults, and where each finding must stand.
fn faulty() -> (Bench, Vec<(&'static str, String, usize)>) {
    let bench = Bench::demo();
    let mut expected = Vec::new();
    for (rule, start, old, new, at) in FAULTS {
        let file = the_file(&bench, start);
        bench.replace(&file, old, new);
        let line = match *rule {
            // What is wrong with a group of keys is told where its first key stands.
            "area-shares" => bench.line_of(&file, at) + 1,
            _ if at.is_empty() => 3,
            _ => bench.line_of(&file, at),
        };
        expected.push((*rule, file, line));
    }
    expected.sort_by(|a, b| (&a.1, a.2).cmp(&(&b.1, b.2)));
    (bench, expected)
}

#[test]
fn json_tells_each_once() {
    let (bench, expected) = faulty();
    let run = bench.run(&["check", "--format", "json"]);
    assert_eq!(run.status, 1);
    let told: Value = serde_json::from_str(&run.out).unwrap();
    let mut found: Vec<(&str, String, usize)> = told["findings"]
        .as_array()
        .unwrap()
        .iter()
        .map(|finding| {
            let text = |key: &str| finding[key].as_str().unwrap();
            assert!(!text("why").is_empty() && !text("mend").is_empty() && !text("message").is_empty());
            let line = usize::try_from(finding["line"].as_u64().unwrap()).unwrap();
            (text("rule"), text("file").to_owned(), line)
        })
        .collect();
    found.sort_by(|a, b| (&a.1, a.2).cmp(&(&b.1, b.2)));
    assert_eq!(found, expected);
    assert_eq!(told["counts"]["error"], 9);
    assert_eq!(told["counts"]["note"], 1);
}

#[test]
fn sarif_tells_each_once() {
    let (bench, expected) = faulty();
    let run = bench.run(&["check", "--format", "sarif"]);
    let told: Value = serde_json::from_str(&run.out).unwrap();
    let mut found: Vec<(&str, String, usize)> = told["runs"][0]["results"]
        .as_array()
        .unwrap()
        .iter()
        .map(|result| {
            let place = &result["locations"][0]["physicalLocation"];
            let line = usize::try_from(place["region"]["startLine"].as_u64().unwrap()).unwrap();
            let file = place["artifactLocation"]["uri"].as_str().unwrap().to_owned();
            (result["ruleId"].as_str().unwrap(), file, line)
        })
        .collect();
    found.sort_by(|a, b| (&a.1, a.2).cmp(&(&b.1, b.2)));
    assert_eq!(found, expected);
}

#[test]
fn the_terminal_tells_each_once() {
    let (bench, expected) = faulty();
    let run = bench.run(&["check"]);
    for (rule, file, line) in &expected {
        assert_eq!(run.out.matches(&format!("[{rule}]")).count(), 1, "{rule} in {}", run.out);
        assert!(run.out.contains(&format!("{file}:{line}:")), "{file}:{line} in {}", run.out);
    }
    assert!(run.out.ends_with("9 errors, 1 note\n"), "{}", run.out);
}

#[test]
fn a_file_that_cannot_be_read_is_told_once_and_not_again_by_all_who_name_it() {
    for file in ["content/paints/mere.yaml", "content/schemes/heron-rider/scheme.md", "content/tools.yaml"] {
        let bench = Bench::demo();
        bench.replace(file, ": ", ": [");
        let run = bench.run(&["check", "--format", "json"]);
        let told: Value = serde_json::from_str(&run.out).unwrap();
        assert_eq!(told["counts"]["error"], 1, "{file}: {}", run.out);
        assert_eq!(told["findings"][0]["rule"], "yaml");
    }
}

#[test]
fn a_step_that_got_another_number_is_still_found_by_its_name() {
    let bench = Bench::demo();
    std::fs::rename(
        bench.path("content/schemes/fen-warden/30-pale-gold.md"),
        bench.path("content/schemes/fen-warden/32-pale-gold.md"),
    )
    .unwrap();
    let run = bench.run(&["check"]);
    assert_eq!(run.out, "no findings\n");
}
