//! The rules that this code keeps, so that nobody has to remember them: layers, sizes, docs.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// The layers from the top down. A file may import from its own layer and from those below it.
/// Layers on the same line are neighbours and know nothing of each other.
const LAYERS: &[&[&str]] = &[
    &["cli"],
    // The live view serves what the story makes; it opens a socket, and reaches the guide through the door alone.
    &["easel"],
    // Explains the words of all layers; no layer knows of it.
    &["explain"],
    &["story"],
    &["press"],
    &["page"],
    // A card draws the same chips as a page, and pages hand it on as a file.
    &["card"],
    // Results as text, JSON, CSV, Markdown and calendar; cards and pages show the same words.
    &["tell"],
    // Above work, whose needs, surfaces and cautions it adds up; below the pages that show a list.
    &["draw", "shop"],
    // Measures a painted model against its film; no page knows of it.
    &["compare"],
    &["work"],
    // The plan of an army rests on the film and its drying; pages show it.
    &["plan"],
    // Beside the rules: it reads photographs for an author, and no page or rule knows of it.
    &["rules", "brushout"],
    &["quantity"],
    // Draws a shape in given colours; work says which, pages show it.
    &["render"],
    // Reads a photograph to draw on through the pictures' door.
    &["plate"],
    &["film", "theme", "picture", "caution", "mesh"],
    // Above colour, whose predictions it ranks by; below the rules, which name its substitutes.
    &["nearest"],
    &["colour"],
    // The figures: an author's own stand in the guide.
    &["bench"],
    &["guide"],
    &["source"],
    &["trade", "door"],
    &["measure"],
    &["report"],
    // A package of its own, which builds for tests compile with all speed; it knows nothing of paint.
    &["booth"],
];

/// Fewer lines than this in every source file.
const MOST_LINES: usize = 500;

/// At most so many lines from a function's head to its closing brace.
const LONGEST_FUNCTION: usize = 60;

pub(crate) struct SourceFile {
    pub(crate) path: PathBuf,
    pub(crate) layer: String,
    pub(crate) text: String,
}

/// The text of all files of the program, one behind the other.
pub(crate) fn all_code() -> String {
    sources().iter().map(|file| file.text.as_str()).collect()
}

pub(crate) fn sources() -> Vec<SourceFile> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    let mut folders = vec![root.clone()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let inside = path.strip_prefix(&root).unwrap();
                let first = inside.components().next().unwrap().as_os_str().to_string_lossy().into_owned();
                let text = fs::read_to_string(&path).unwrap();
                files.push(SourceFile { layer: first.trim_end_matches(".rs").to_owned(), path, text });
            }
        }
    }
    files.sort_by(|a, b| a.path.cmp(&b.path));
    files
}

pub(crate) fn depth(layer: &str) -> Option<usize> {
    LAYERS.iter().position(|row| row.contains(&layer))
}

#[test]
fn imports_run_down_the_layers() {
    let mut faults = Vec::new();
    for file in sources() {
        if matches!(file.layer.as_str(), "lib" | "main") {
            continue;
        }
        let Some(own) = depth(&file.layer) else {
            faults.push(format!("{}: the layer '{}' is not in LAYERS", file.path.display(), file.layer));
            continue;
        };
        for (at, line) in file.text.lines().enumerate() {
            if line.trim_start().starts_with("//") {
                continue;
            }
            for name in line.split("crate::").skip(1).flat_map(imported) {
                let allowed = match depth(&name) {
                    Some(other) => other > own || name == file.layer,
                    None => true,
                };
                if !allowed {
                    faults.push(format!(
                        "{}:{}: '{}' may not import '{name}'",
                        file.path.display(),
                        at + 1,
                        file.layer
                    ));
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// The layers named behind `crate::`, also in a group such as `crate::{report, story}`.
fn imported(text: &str) -> Vec<String> {
    match text.strip_prefix('{').and_then(|group| group.split_once('}')) {
        Some((group, _)) => group.split(',').map(|name| first_word(name.trim())).collect(),
        None => vec![first_word(text)],
    }
}

fn first_word(text: &str) -> String {
    text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
}

#[test]
fn the_outside_is_reached_through_the_door_alone() {
    let mut faults = Vec::new();
    for file in sources().iter().filter(|file| !matches!(file.layer.as_str(), "door" | "main")) {
        let code = without_tests(&file.text);
        for word in ["std::fs", "SystemTime", "Instant::now", "Zoned::now", "Timestamp::now"] {
            if code.contains(word) {
                faults.push(format!("{}: {word}", file.path.display()));
            }
        }
        if code.contains("std::env") && !file.path.ends_with("cli/terminal.rs") {
            faults.push(format!("{}: std::env", file.path.display()));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_file_says_what_it_is_for_and_stays_short() {
    let mut faults = Vec::new();
    for file in sources() {
        if !file.text.starts_with("//! ") {
            faults.push(format!("{}: no module doc", file.path.display()));
        }
        let lines = file.text.lines().count();
        if lines >= MOST_LINES {
            faults.push(format!("{}: {lines} lines", file.path.display()));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn functions_can_be_seen_whole() {
    let mut faults = Vec::new();
    let mut lengths = Vec::new();
    for file in sources() {
        for (start, length) in functions(without_tests(&file.text)) {
            lengths.push(length);
            if length > LONGEST_FUNCTION {
                faults.push(format!("{}:{start}: {length} lines", file.path.display()));
            }
        }
    }
    lengths.sort_unstable();
    let at = |part: usize| lengths[(lengths.len() - 1) * part / 100];
    println!("{} functions: median {} lines, nine in ten up to {}, longest {}", lengths.len(), at(50), at(90), at(100));
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(at(50) <= 12 && at(90) <= 30, "median {} and nine in ten {} lines", at(50), at(90));
}

/// The first line and the length of every function, by the indentation of its closing brace.
fn functions(text: &str) -> Vec<(usize, usize)> {
    let lines: Vec<&str> = text.lines().collect();
    let mut found = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        let indent = line.len() - line.trim_start().len();
        let head = line.trim_start();
        let is_head = ["fn ", "pub fn ", "pub(crate) fn ", "pub(super) fn ", "const fn ", "pub const fn "]
            .iter()
            .any(|start| head.starts_with(start));
        if !is_head || head.ends_with(';') || head.ends_with('}') {
            continue;
        }
        let closing = format!("{}}}", " ".repeat(indent));
        if let Some(length) = lines[at..].iter().position(|line| *line == closing) {
            found.push((at + 1, length + 1));
        }
    }
    found
}

fn without_tests(text: &str) -> &str {
    text.split("#[cfg(test)]\nmod ").next().unwrap_or(text)
}

#[test]
fn nothing_is_left_for_later() {
    let words = [["TO", "DO"], ["FIX", "ME"], ["XX", "X"], ["todo", "!("], ["#[al", "low("], ["#![al", "low("]];
    let words = words.map(|halves| halves.concat());
    let mut faults = Vec::new();
    for file in sources() {
        for (at, line) in file.text.lines().enumerate() {
            if words.iter().any(|word| line.contains(word.as_str())) {
                faults.push(format!("{}:{}: {}", file.path.display(), at + 1, line.trim()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_check_has_an_id_of_its_own_and_reads_as_a_sentence() {
    let mut seen = BTreeSet::new();
    for check in maulstick::story::REGISTRY.iter() {
        assert!(seen.insert(check.id), "{} stands twice", check.id);
        assert!(
            check.id.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'-' || byte.is_ascii_digit()),
            "{}",
            check.id
        );
        for text in [check.about, check.why] {
            assert!(!text.ends_with('.') && text.len() > 15, "{}: {text}", check.id);
        }
    }
    assert!(seen.len() > 30);
}

#[test]
fn every_file_that_a_document_names_is_there() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut texts = vec![root.join("DEVELOPERS.md"), root.join("README.md")];
    let mut folders = ["src", "tests/suite", "benches", ".ci"].map(|folder| root.join(folder)).to_vec();
    while let Some(folder) = folders.pop() {
        let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
        let (inner, files): (Vec<_>, Vec<_>) = entries.partition(|path| path.is_dir());
        folders.extend(inner);
        texts.extend(files.into_iter().filter(|path| path.extension().is_some_and(|ending| ending == "md")));
    }
    let mut missing = Vec::new();
    for path in texts {
        let text = fs::read_to_string(&path).unwrap();
        let is_code = |word: &&str| Path::new(word).extension().is_some_and(|ending| ending == "rs");
        let named = text.split('`').filter(|word| word.contains('/') && !word.contains(['…', ' '])).filter(is_code);
        let is_there = |name: &&str| ["", "src", "tests"].iter().any(|folder| root.join(folder).join(name).is_file());
        missing.extend(named.filter(|name| !is_there(name)).map(|name| format!("{name} in {}", path.display())));
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}
