//! The rules' cases: several small guides in one text file, the expected findings beside the lines that cause them.
//!
//! ```text
//! shelf: fen                          the paints of tests/cases/shelves/fen.yaml
//!
//! === a decal on matt paint           one small guide
//! --- scheme.md                       one file of its one scheme: the lines of its front matter
//! areas: {shell: 100%}
//! --- 20-marks.md
//! stage: decal   #! decal-needs-gloss => put it after 'Gloss coat'
//! ```
//!
//! `#!` announces the findings of its line by their rules, with commas between; behind `=>` may stand the mend of the
//! last one, and behind a rule the level in brackets where it is not the rule's own: `(note)`. A finding that is not announced fails, and so does one that does not come. A finding at the title of a
//! file without a `title` is announced on the file's `---` line. A file named `guide.yaml` holds more lines for the
//! guide, and `army.yaml` an army; other `.yaml` files stand in the content folder as they are. What a case leaves out is
//! filled in: `title` from the file's name, `with: brush`, `areas: [all]`. What the bookkeeping of a whole guide finds
//! (areas without colour, tools that stand about) counts only in the files named after those checks: elsewhere a case
//! is short.
//!
//! A file whose name begins with `content/` or `themes/` stands there with its text as it is. What no text case can break
//! stands in `tests/cases/elsewhere.txt` with the tests that break it and leave it in peace.
//!
//! `UPDATE_CASES=1 cargo test --test parts cases::` writes what was found into the files; read the difference.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;

use crate::reading::{Case, case_files, door_to, folder, parse};
use maulstick::door::Memory;
use maulstick::report::{Files, Finding, Findings};
use maulstick::rules;
use maulstick::story::{self, Session};

/// A line of a case file, by its index, and what is announced or found there.
type Marks = BTreeMap<usize, Vec<Mark>>;

#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Mark {
    rule: String,
    mend: Option<String>,
}

#[test]
fn every_finding_is_announced_and_every_announced_finding_comes() {
    let mut wrong = String::new();
    let mut session = Session::default();
    for path in case_files() {
        check_file(&mut session, &path, &mut wrong);
    }
    assert!(wrong.is_empty(), "{wrong}\nUPDATE_CASES=1 writes what was found");
}

#[test]
fn the_example_of_every_rule_is_what_it_says_in_one_of_its_cases() {
    let mut session = Session::default();
    let mut other = Vec::new();
    for rule in rules::RULES {
        let path = folder().join("rules").join(format!("{}.txt", rule.check.id));
        let (shelf, cases) = parse(&std::fs::read_to_string(&path).unwrap());
        let said: Vec<String> =
            cases.iter().flat_map(|case| messages(&mut session, case, &shelf, rule.check.id)).collect();
        if !said.iter().any(|one| one == rule.example) {
            other.push(format!("{} says {said:#?}", rule.check.id));
        }
    }
    assert!(other.is_empty(), "{}", other.join("\n"));
}

/// What a rule says about a case.
fn messages(session: &mut Session, case: &Case, shelf: &str, rule: &str) -> Vec<String> {
    let (findings, _) = check(session, &door_to(case, shelf));
    findings.iter().filter(|finding| finding.check.id == rule).map(|finding| finding.message.clone()).collect()
}

#[test]
fn sound_schemes_stay_entirely_quiet() {
    let sound = case_files().into_iter().filter(|path| path.parent().is_some_and(|folder| folder.ends_with("sound")));
    let mut schemes = 0;
    for path in sound {
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(!text.contains("#!"), "{} announces a finding", path.display());
        schemes += parse(&text).1.len();
    }
    assert!(schemes >= 25, "only {schemes} sound schemes");
}

#[test]
fn every_rule_has_a_case_that_fires_and_one_that_is_quiet() {
    for rule in rules::RULES {
        let path = folder().join("rules").join(format!("{}.txt", rule.check.id));
        let text = std::fs::read_to_string(&path).unwrap_or_else(|_| panic!("{} is missing", path.display()));
        let (_, cases) = parse(&text);
        let fires = |case: &Case| {
            let lines: Vec<&str> = text.lines().collect();
            let first = case.files.first().map_or(case.end, |file| file.header);
            lines[first..case.end]
                .iter()
                .any(|line| marks_of(line).iter().any(|mark| mark.rule.split(' ').next() == Some(rule.check.id)))
        };
        let firing = cases.iter().filter(|case| fires(case)).count();
        assert!(firing > 0, "no case of {} fires", path.display());
        assert!(firing < cases.len(), "no case of {} is quiet", path.display());
    }
}

/// The checks that no text case can break: for each the tests that see it fire and see it quiet.
const ELSEWHERE: &str = include_str!("cases/elsewhere.txt");

#[test]
fn every_check_of_every_layer_fires_somewhere_and_is_quiet_somewhere() {
    let mut fires = BTreeSet::new();
    for path in case_files() {
        let text = std::fs::read_to_string(&path).unwrap();
        fires.extend(text.lines().flat_map(marks_of).map(|mark| mark.rule));
    }
    let code = all_tests();
    let mut wrong = Vec::new();
    for check in story::REGISTRY.iter().filter(|check| !fires.contains(check.id)) {
        let named = ELSEWHERE.lines().find_map(|line| line.split_once(": ").filter(|(id, _)| *id == check.id));
        let tests: Vec<&str> = named.map(|(_, tests)| tests.split_whitespace().collect()).unwrap_or_default();
        let known = tests.iter().all(|test| code.contains(&format!("fn {test}(")));
        if tests.len() != 2 || !known {
            wrong.push(check.id);
        }
    }
    assert!(wrong.is_empty(), "no case fires, and elsewhere.txt names no two tests: {}", wrong.join(", "));
    let ids: BTreeSet<&str> = story::REGISTRY.iter().map(|check| check.id).collect();
    for line in ELSEWHERE.lines().filter(|line| !line.starts_with('#') && !line.is_empty()) {
        let id = line.split_once(": ").map_or(line, |(id, _)| id);
        assert!(ids.contains(id) && !fires.contains(id), "{id} in elsewhere.txt is no check, or has a case");
    }
}

/// The text of all tests, those beside the code too.
fn all_tests() -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut folders = vec![root.join("src"), root.join("tests")];
    let mut code = String::new();
    while let Some(folder) = folders.pop() {
        for path in std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                code.push_str(&std::fs::read_to_string(path).unwrap());
            }
        }
    }
    code
}

fn check_file(session: &mut Session, path: &Path, wrong: &mut String) {
    let text = std::fs::read_to_string(path).unwrap();
    let (shelf, cases) = parse(&text);
    let mut found = Marks::new();
    for case in &cases {
        found_in(session, case, &shelf, &keeps_books(path), &mut found);
    }
    if std::env::var_os("UPDATE_CASES").is_some() {
        std::fs::write(path, updated(&text, &found)).unwrap();
        return;
    }
    let name = path.strip_prefix(folder()).unwrap().display();
    for (at, line) in text.lines().enumerate() {
        let announced = marks_of(line);
        let here = found.remove(&at).unwrap_or_default();
        if !agree(&announced, &here) {
            let case = cases.iter().find(|case| at < case.end).map_or("", |case| &case.name);
            writeln!(wrong, "{name}:{}: {case}\n  announced {}", at + 1, shown(&announced)).unwrap();
            writeln!(wrong, "  found     {}\n", shown(&here)).unwrap();
        }
    }
}

fn agree(announced: &[Mark], found: &[Mark]) -> bool {
    announced.len() == found.len()
        && announced.iter().zip(found).all(|(a, f)| a.rule == f.rule && (a.mend.is_none() || a.mend == f.mend))
}

fn shown(marks: &[Mark]) -> String {
    let one = |mark: &Mark| match &mark.mend {
        Some(mend) => format!("{} => {mend}", mark.rule),
        None => mark.rule.clone(),
    };
    if marks.is_empty() { "nothing".to_owned() } else { marks.iter().map(one).collect::<Vec<_>>().join("; ") }
}

/// What a line announces, in the order of the rules' ids.
fn marks_of(line: &str) -> Vec<Mark> {
    let Some((_, marks)) = line.split_once("#!") else { return Vec::new() };
    let (rules, mend) = marks.split_once("=>").map_or((marks, None), |(rules, mend)| (rules, Some(mend.trim())));
    let mut marks: Vec<Mark> = rules.split(',').map(|rule| Mark { rule: rule.trim().to_owned(), mend: None }).collect();
    if let Some(last) = marks.last_mut() {
        last.mend = mend.map(str::to_owned);
    }
    marks.sort();
    marks
}

/// The text with what was found in the place of what was announced; a mend stays where one was written.
fn updated(text: &str, found: &Marks) -> String {
    let mut new = String::new();
    for (at, line) in text.lines().enumerate() {
        let announced = marks_of(line);
        let here = found.get(&at).map(Vec::as_slice).unwrap_or_default();
        if agree(&announced, here) {
            writeln!(new, "{line}").unwrap();
            continue;
        }
        let bare = line.split_once("#!").map_or(line, |(bare, _)| bare).trim_end();
        let rules = here.iter().map(|mark| mark.rule.as_str()).collect::<Vec<_>>().join(", ");
        let mend = announced.last().filter(|mark| mark.mend.is_some()).and(here.last()).and_then(|m| m.mend.as_ref());
        match (here, mend) {
            ([], _) => writeln!(new, "{bare}"),
            (_, Some(mend)) => writeln!(new, "{bare}   #! {rules} => {mend}"),
            (_, None) => writeln!(new, "{bare}   #! {rules}"),
        }
        .unwrap();
    }
    new
}

/// Whether a finding counts in the cases of a file.
fn keeps_books(path: &Path) -> impl Fn(&Finding) -> bool {
    const BOOKKEEPING: &[&str] =
        &["area-unused", "area-unpainted", "tool-unused", "paint-unused", "minutes-missing", "surface-guessed"];
    let named = path.file_stem().unwrap().to_string_lossy().into_owned();
    move |finding| !BOOKKEEPING.contains(&finding.check.id) || finding.check.id == named
}

fn found_in(session: &mut Session, case: &Case, shelf: &str, counts: &impl Fn(&Finding) -> bool, marks: &mut Marks) {
    let (findings, files) = check(session, &door_to(case, shelf));
    for finding in findings.iter().filter(|finding| counts(finding)) {
        let at = line_of(case, finding, &files);
        let level = finding.level();
        let own = if level == finding.check.level { String::new() } else { format!(" ({})", level.word()) };
        let mark = Mark { rule: format!("{}{own}", finding.check.id), mend: Some(finding.mend.clone()) };
        marks.entry(at).or_default().push(mark);
    }
    for here in marks.values_mut() {
        here.sort();
    }
}

/// Everything that is found in a guide, from reading it to its cards.
fn check(session: &mut Session, door: &Memory) -> (Findings, Files) {
    let checked = session.check(door).unwrap();
    (checked.findings, checked.files)
}

fn line_of(case: &Case, finding: &Finding, files: &Files) -> usize {
    let path = files.path(finding.place.file);
    let file = case.files.iter().find(|file| file.path() == path);
    // What a file that is not there, or not of the case, should say is told at the head of the case.
    let Some(file) = file else { return case.files.first().map_or(case.end, |file| file.header) };
    let (line, _) = files.line_and_column(finding.place);
    let within = if file.is_yaml() || file.is_raw() { line } else { line.saturating_sub(1) };
    if within == 0 || within > file.lines.len() { file.header } else { file.header + within }
}
