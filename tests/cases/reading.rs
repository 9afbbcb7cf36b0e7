//! Reading the cases: from a text file to small guides in memory.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use maulstick::door::Memory;

pub(crate) struct Case {
    pub(crate) name: String,
    pub(crate) files: Vec<CaseFile>,
    pub(crate) end: usize,
}

pub(crate) struct CaseFile {
    pub(crate) name: String,
    pub(crate) header: usize,
    pub(crate) lines: Vec<String>,
}

pub(crate) fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases")
}

pub(crate) fn case_files() -> Vec<PathBuf> {
    let folders = std::fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path());
    let files = folders.filter(|path| path.is_dir()).flat_map(|path| std::fs::read_dir(path).unwrap());
    let mut files: Vec<PathBuf> = files.map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "txt"));
    files.sort();
    files
}

pub(crate) fn parse(text: &str) -> (String, Vec<Case>) {
    let mut shelf = String::new();
    let mut cases: Vec<Case> = Vec::new();
    for (at, line) in text.lines().enumerate() {
        let bare = line.split_once("#!").map_or(line, |(bare, _)| bare).trim_end();
        if let Some(name) = bare.strip_prefix("=== ") {
            cases.push(Case { name: name.to_owned(), files: Vec::new(), end: at + 1 });
            continue;
        }
        let Some(case) = cases.last_mut() else {
            if let Some(name) = bare.strip_prefix("shelf: ") {
                name.clone_into(&mut shelf);
            }
            continue;
        };
        case.end = at + 1;
        if let Some(name) = bare.strip_prefix("--- ") {
            case.files.push(CaseFile { name: name.to_owned(), header: at, lines: Vec::new() });
        } else if let Some(file) = case.files.last_mut() {
            file.lines.push(line.to_owned());
        }
    }
    (shelf, cases)
}

/// A case as a guide in memory.
pub(crate) fn door_to(case: &Case, shelf: &str) -> Memory {
    let paints = std::fs::read_to_string(folder().join("shelves").join(format!("{shelf}.yaml"))).unwrap();
    let mut door = Memory::default().with("content/paints/shelf.yaml", paints);
    let names: BTreeSet<&str> = case.files.iter().map(|file| file.name.as_str()).collect();
    if !names.contains("guide.yaml") {
        door = door.with("content/guide.yaml", "title: Case\nauthor: Case\n");
    }
    for file in &case.files {
        let (path, text) = file.as_source();
        door = door.with(&path, text);
    }
    door
}

impl CaseFile {
    /// Whether it stands where its name says, with the text that it has and no more.
    pub(crate) fn is_raw(&self) -> bool {
        self.name.starts_with("content/") || self.name.starts_with("themes/")
    }

    pub(crate) fn is_yaml(&self) -> bool {
        Path::new(&self.name).extension().is_some_and(|ending| ending == "yaml")
    }

    /// Whether it is a file whose title a case may leave out.
    fn is_guide(&self) -> bool {
        matches!(self.name.as_str(), "guide.yaml" | "army.yaml")
    }

    pub(crate) fn path(&self) -> String {
        match self.name.as_str() {
            "army.yaml" => "content/armies/army.yaml".to_owned(),
            name if self.is_raw() => name.to_owned(),
            name if self.is_yaml() => format!("content/{name}"),
            name => format!("content/schemes/case/{name}"),
        }
    }

    fn as_source(&self) -> (String, String) {
        // Marks are comments in YAML, and no part of any other text.
        let bare = |line: &String| match line.split_once("#!") {
            Some((bare, _)) if self.is_raw() => bare.trim_end().to_owned(),
            _ => line.clone(),
        };
        let mut text = self.lines.iter().map(bare).collect::<Vec<_>>().join("\n");
        text.push('\n');
        if self.is_raw() {
            return (self.path(), text);
        }
        let has = |key: &str| self.lines.iter().any(|line| line.starts_with(key));
        let add = |key: &str, value: &str, text: &mut String| {
            if !has(key) {
                writeln!(text, "{key} {value}").unwrap();
            }
        };
        if self.is_yaml() && !self.is_guide() {
            return (self.path(), text);
        }
        if self.is_guide() {
            add("title:", "Case", &mut text);
            if self.name == "guide.yaml" {
                add("author:", "Case", &mut text);
            }
            return (self.path(), text);
        }
        add("title:", &title_of(&self.name), &mut text);
        if self.name != "scheme.md" {
            add("with:", "brush", &mut text);
            let needs_areas = !["stage: prepare", "stage: basing"].iter().any(|stage| has(stage));
            if needs_areas {
                add("areas:", "[all]", &mut text);
            }
        }
        (self.path(), format!("---\n{text}---\n\nText.\n"))
    }
}

/// `20-gloss-coat.md` becomes `Gloss coat`.
fn title_of(name: &str) -> String {
    let words = name.trim_end_matches(".md").trim_start_matches(|c: char| c.is_ascii_digit() || c == '-');
    let words = words.replace('-', " ");
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
