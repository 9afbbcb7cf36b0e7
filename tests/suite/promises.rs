//! What the documents promise about libraries and faults, held to the manifest and to the tests.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use crate::bench::demo_folder;

fn text(path: &str) -> String {
    fs::read_to_string(demo_folder().join(path)).unwrap()
}

/// The cells of every row of the tables in a text, without heads and rules.
fn rows(text: &str) -> Vec<Vec<String>> {
    let lines: Vec<&str> = text.lines().collect();
    let is_head = |at: usize| lines.get(at + 1).is_some_and(|next| next.starts_with("| ---"));
    let row = |line: &str| line.trim_matches('|').split(" | ").map(|cell| cell.trim().to_owned()).collect();
    let found = lines
        .iter()
        .enumerate()
        .filter(|(at, line)| line.starts_with("| ") && !line.starts_with("| ---") && !is_head(*at));
    found.map(|(_, line)| row(line)).collect()
}

/// What stands between back quotes.
fn quoted(text: &str) -> Vec<&str> {
    text.split('`').skip(1).step_by(2).collect()
}

#[test]
fn every_library_stands_in_the_table_with_what_it_may_touch() {
    let manifests = [text("Cargo.toml"), text(".ci/papers/Cargo.toml")].concat();
    let mut used = BTreeSet::new();
    let mut within = false;
    for line in manifests.lines() {
        if line.starts_with('[') {
            within = line == "[dev-dependencies]" || line == "[dependencies]" || line.ends_with(".dependencies]");
        } else if let Some((name, _)) = line.split_once(" = ").filter(|(name, _)| within && *name != "maulstick") {
            used.insert(name.to_owned());
        }
    }
    assert!(used.len() > 30, "{used:?}");
    let rows = rows(&text(".ci/LIBRARIES.md"));
    let named: Vec<String> = rows.iter().map(|row| row[0].trim_matches('`').to_owned()).collect();
    let once: BTreeSet<String> = named.iter().cloned().collect();
    assert_eq!(once.len(), named.len(), "a library stands twice");
    let missing: Vec<_> = used.difference(&once).collect();
    let gone: Vec<_> = once.difference(&used).collect();
    assert!(missing.is_empty() && gone.is_empty(), "not in the table: {missing:?}; in it and not used: {gone:?}");
    for row in &rows {
        assert!(row.len() == 4 && row.iter().all(|cell| !cell.is_empty()), "{row:?}");
        assert!(["yes", "no"].contains(&row[3].as_str()), "{row:?}");
    }
}

#[test]
fn every_fault_in_the_table_names_a_test_that_is_there() {
    let mut tests = String::new();
    let mut folders = vec![demo_folder().join("tests")];
    while let Some(folder) = folders.pop() {
        for path in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                folders.extend(Some(path).filter(|path| !path.ends_with("node_modules")));
            } else if is_rust(&path) {
                tests.push_str(&fs::read_to_string(path).unwrap());
            }
        }
    }
    let rows = rows(&text("tests/suite/FAULTS.md"));
    assert!(rows.len() > 30, "{} rows", rows.len());
    let mut faults = Vec::new();
    for row in &rows {
        let named = row.last().map(|cell| quoted(cell)).unwrap_or_default();
        if row.len() != 3 || named.is_empty() {
            faults.push(format!("no test: {row:?}"));
        }
        faults.extend(
            named
                .iter()
                .filter(|name| !tests.contains(&format!("fn {name}()")))
                .map(|name| format!("no test is called {name}")),
        );
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

fn is_rust(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == "rs")
}

#[test]
fn no_code_of_ours_is_unsafe_or_runs_while_it_is_built() {
    let manifest = text("Cargo.toml");
    let (_, lints) = manifest.split_once("[workspace.lints.rust]").unwrap();
    assert!(lints.split("\n[").next().unwrap().contains("unsafe_code = \"forbid\""));
    for package in ["Cargo.toml", "src/booth/Cargo.toml", ".ci/papers/Cargo.toml"] {
        assert!(text(package).contains("[lints]\nworkspace = true"), "{package}");
    }
    assert!(!demo_folder().join("build.rs").exists() && !manifest.contains("build ="));
    let mut files: Vec<PathBuf> = Vec::new();
    let mut folders: Vec<PathBuf> =
        ["src", "benches", "tests", ".ci/papers"].map(|folder| demo_folder().join(folder)).into();
    while let Some(folder) = folders.pop() {
        for path in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() { folders.push(path) } else { files.extend(Some(path).filter(|path| is_rust(path))) }
        }
    }
    let block = ["uns", "afe {"].concat();
    let opened: Vec<_> = files.iter().filter(|path| fs::read_to_string(path).unwrap().contains(&block)).collect();
    assert!(opened.is_empty(), "{opened:?}");
}

#[test]
fn what_runs_before_a_change_lands_looks_at_licences_doubles_and_sources_without_the_list_of_holes() {
    let script = text(".ci/run");
    let (known, holes) = script.split_once("fetch db").unwrap();
    assert!(known.contains("check --hide-inclusion-graph licenses bans sources") && holes.contains("advisories"));
    let rules = text(".ci/deny.toml");
    for rule in
        ["multiple-versions = \"deny\"", "unknown-registry = \"deny\"", "unknown-git = \"deny\"", "crate = \"reqwest\""]
    {
        assert!(rules.contains(rule), "{rule}");
    }
}

#[test]
fn the_forge_checks_with_the_oldest_rust_and_runs_scripts_that_are_there() {
    let manifest = text("Cargo.toml");
    let oldest = manifest.lines().find_map(|line| line.strip_prefix("rust-version = ")).unwrap();
    let jobs = text(".github/workflows/check.yml");
    assert!(jobs.contains(&format!("OLDEST_RUST: {oldest}\n")), "{oldest}");
    assert!(text("src/booth/Cargo.toml").contains(&format!("rust-version = {oldest}\n")));
    let scripts: BTreeSet<&str> =
        jobs.split("bash ").skip(1).filter_map(|rest| rest.split_whitespace().next()).collect();
    assert!(scripts.contains(".ci/run") && scripts.contains(".ci/archives"), "{scripts:?}");
    for script in scripts {
        assert!(demo_folder().join(script).is_file(), "{script}");
    }
}

#[test]
fn the_changes_begin_with_this_version() {
    let changes = text("content/pages/changes-by-version.md");
    let newest = changes.lines().find_map(|line| line.strip_prefix("## ")).unwrap();
    assert_eq!(newest, env!("CARGO_PKG_VERSION"));
}
