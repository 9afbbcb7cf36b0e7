//! The house as a whole: no files that import each other, directly or by way of others, and a map that shows every folder.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::fs;

use regex::Regex;

use crate::bench::demo_folder;
use crate::house_rules::{depth, sources};

/// The path of a module, as in `guide`, `resolve`, `links`.
type Module = Vec<String>;

/// What a module imports: names that it knows by another module's path, and the paths that its own code uses.
#[derive(Default)]
struct Imports {
    known: BTreeMap<String, Module>,
    used: Vec<Module>,
}

fn code() -> BTreeMap<Module, String> {
    let root = demo_folder().join("src");
    let files = sources().into_iter().filter(|file| !matches!(file.layer.as_str(), "lib" | "main"));
    let module = |path: &std::path::Path| -> Module {
        let inside = path.strip_prefix(&root).unwrap().with_extension("");
        let names = inside.iter().map(|name| name.to_string_lossy().into_owned());
        names.filter(|name| name != "mod").collect()
    };
    let code = |text: &str| -> String {
        let text = text.split("#[cfg(test)]\nmod ").next().unwrap_or(text);
        text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n")
    };
    // Who may see a thing is no import.
    let seen_by = Regex::new(r"\(in [a-z_:]+\)").unwrap();
    files.map(|file| (module(&file.path), seen_by.replace_all(&code(&file.text), "(crate)").into_owned())).collect()
}

/// The single paths of a `use`, with groups taken apart.
fn paths(tree: &str) -> Vec<String> {
    let tree = tree.trim();
    let Some((before, group)) = tree.split_once('{') else {
        return vec![tree.split(" as ").next().unwrap_or(tree).trim().to_owned()];
    };
    let group = group.rsplit_once('}').map_or(group, |(group, _)| group);
    let (mut deep, mut entries) = (0, vec![String::new()]);
    for letter in group.chars() {
        match letter {
            ',' if deep == 0 => entries.push(String::new()),
            _ => {
                deep += i32::from(letter == '{') - i32::from(letter == '}');
                entries.last_mut().unwrap().push(letter);
            }
        }
    }
    let entries = entries.iter().filter(|entry| !entry.trim().is_empty());
    entries.flat_map(|entry| paths(&format!("{before}{}", entry.trim()))).collect()
}

/// A path as it is written in a module, from the root of the crate; `None` for what is no path of ours.
fn from_root(module: &Module, path: &str, all: &BTreeMap<Module, String>) -> Option<Module> {
    let mut names = path.split("::").map(|name| name.trim().to_owned()).peekable();
    let mut base = module.clone();
    match names.peek().map(String::as_str) {
        Some("crate") => {
            names.next();
            base.clear();
        }
        Some("self" | "super") => {
            while let Some(name) = names.next_if(|name| matches!(name.as_str(), "self" | "super")) {
                base.truncate(base.len() - usize::from(name == "super"));
            }
        }
        Some(child) if all.contains_key(&[base.as_slice(), &[child.to_owned()]].concat()) => {}
        _ => return None,
    }
    Some(base.into_iter().chain(names).collect())
}

fn imports(module: &Module, text: &str, all: &BTreeMap<Module, String>) -> Imports {
    let using = Regex::new(r"(pub(?:\([^)]*\))? )?\buse ([^;]+);").unwrap();
    let inline = Regex::new(r"\b[a-z_]+(?:::\w+)+").unwrap();
    let mut imports = Imports::default();
    for found in using.captures_iter(text) {
        for path in paths(&found[2].split_whitespace().collect::<Vec<_>>().join(" ")) {
            let Some(there) = from_root(module, path.trim_end_matches("::self"), all) else { continue };
            if let Some(name) = there.last() {
                imports.known.insert(name.clone(), there.clone());
            }
            if found.get(1).is_none() {
                imports.used.push(there);
            }
        }
    }
    let rest = using.replace_all(text, "");
    imports.used.extend(inline.find_iter(&rest).filter_map(|path| from_root(module, path.as_str(), all)));
    imports
}

/// The file in which what a path names is written, through all that only hands it on.
fn file_of(path: &Module, all: &BTreeMap<Module, Imports>) -> Option<Module> {
    let mut path = path.clone();
    for _ in 0..10 {
        let length = (1..=path.len()).rev().find(|length| all.contains_key(&path[..*length]))?;
        let handed_on = path.get(length).and_then(|name| all[&path[..length]].known.get(name));
        match handed_on {
            Some(there) if *there != path[..=length] => path = [there.as_slice(), &path[length + 1..]].concat(),
            _ => return Some(path[..length].to_vec()),
        }
    }
    None
}

#[test]
fn no_files_import_each_other() {
    let code = code();
    let all: BTreeMap<Module, Imports> =
        code.iter().map(|(module, text)| (module.clone(), imports(module, text, &code))).collect();
    let edges: BTreeMap<&Module, BTreeSet<Module>> = all
        .iter()
        .map(|(module, imports)| {
            let files = imports.used.iter().filter_map(|path| file_of(path, &all));
            (module, files.filter(|file| file != module).collect())
        })
        .collect();
    assert!(edges.values().map(BTreeSet::len).sum::<usize>() > 1000, "imports are not found any more");
    let mut told: BTreeSet<Module> = BTreeSet::new();
    let mut circles = Vec::new();
    for start in edges.keys().copied() {
        if told.contains(start) {
            continue;
        }
        if let Some(circle) = circle(start, &edges) {
            circles.push(circle.iter().map(|module| module.join("/")).collect::<Vec<_>>().join(" → "));
            told.extend(circle);
        }
    }
    assert!(circles.is_empty(), "{}", circles.join("\n"));
}

/// The shortest way from a file back to itself.
fn circle(start: &Module, edges: &BTreeMap<&Module, BTreeSet<Module>>) -> Option<Vec<Module>> {
    let mut before: BTreeMap<Module, Module> = BTreeMap::new();
    let mut waiting = VecDeque::from([start.clone()]);
    while let Some(at) = waiting.pop_front() {
        for next in edges.get(&at).into_iter().flatten() {
            if next == start {
                let mut way = vec![start.clone(), at.clone()];
                while way.last() != Some(start) {
                    way.push(before[way.last().unwrap()].clone());
                }
                way.reverse();
                return Some(way);
            }
            if !before.contains_key(next) {
                before.insert(next.clone(), at.clone());
                waiting.push_back(next.clone());
            }
        }
    }
    None
}

#[test]
fn the_map_shows_every_folder_in_the_order_of_the_imports() {
    let document = fs::read_to_string(demo_folder().join("DEVELOPERS.md")).unwrap();
    let map = document.split("\n## The map\n").nth(1).and_then(|map| map.split("\n## ").next()).unwrap();
    let mut shown: Vec<String> = Vec::new();
    let mut rooms: BTreeSet<String> = BTreeSet::new();
    for row in map.lines().filter(|line| line.starts_with("| `")) {
        let cells: Vec<&str> = row.trim_matches('|').split('|').collect();
        let quoted = |cell: &str| -> Vec<String> {
            cell.split('`').skip(1).step_by(2).map(|name| name.trim_end_matches('/').to_owned()).collect()
        };
        let folder = quoted(cells[0]).remove(0);
        rooms.extend(quoted(cells[2]).iter().map(|room| format!("{folder}/{room}")));
        shown.push(folder);
    }
    let depths: Vec<Option<usize>> = shown.iter().map(|folder| depth(folder)).collect();
    assert!(depths.iter().all(Option::is_some) && depths.is_sorted(), "not in the order of LAYERS: {shown:?}");
    let root = demo_folder().join("src");
    let folders: BTreeSet<String> = sources()
        .iter()
        .filter_map(|file| file.path.strip_prefix(&root).ok()?.parent()?.to_str().map(str::to_owned))
        .filter(|folder| !folder.is_empty())
        .collect();
    assert_eq!(folders, shown.into_iter().chain(rooms).collect(), "the map and the folders of src/ differ");
    assert!(document.len() <= 20_000, "DEVELOPERS.md has {} bytes", document.len());
}

/// The paths that a document names between backticks and in its links: what has a slash in it, or the ending of a file.
fn named_paths(document: &str) -> BTreeSet<String> {
    let quoted = document.lines().flat_map(|line| line.split('`').skip(1).step_by(2));
    let words = quoted.flat_map(str::split_whitespace);
    let linked = document.split("](").skip(1).filter_map(|rest| rest.split(')').next());
    let ending = Regex::new(r"^[\w.-]+\.(rs|md|py|sh|toml|html|yaml|txt)$").unwrap();
    // What an author calls a thing is no path of ours, and of a path with a gap the folder is one.
    let path = |word: &str| word.trim_end_matches('…').to_owned();
    let is_path = |word: &str| !word.contains(['<', '"', ':']) && (word.contains('/') || ending.is_match(word));
    words.chain(linked).map(path).filter(|word| is_path(word)).collect()
}

#[test]
fn every_path_that_the_guide_for_contributors_names_is_there() {
    let root = demo_folder();
    let document = fs::read_to_string(root.join("DEVELOPERS.md")).unwrap();
    let (before, rest) = document.split_once("\n## The map\n").unwrap();
    // Rooms stand in the map by their own names; the test of the map holds them.
    let rest: Vec<&str> = rest.lines().filter(|line| !line.starts_with("| `")).collect();
    let named = named_paths(&format!("{before}\n{}", rest.join("\n")));
    assert!(named.len() > 60, "paths are not found any more: {named:?}");
    let mut files: BTreeSet<String> = BTreeSet::new();
    let mut folders: Vec<_> = ["src", "tests", "themes"].map(|folder| root.join(folder)).into();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
            files.insert(entry.file_name().to_string_lossy().into_owned());
            folders.extend(Some(entry.path()).filter(|path| path.is_dir()));
        }
    }
    let is_there = |path: &str| {
        let below = ["", "src"].map(|folder| root.join(folder).join(path));
        below.iter().any(|path| path.exists()) || (!path.contains('/') && files.contains(path))
    };
    let missing: Vec<&String> = named.iter().filter(|path| !is_there(path)).collect();
    assert!(missing.is_empty(), "DEVELOPERS.md names what is not there: {missing:?}");
    assert!(!is_there("rules/mend.rs") && !is_there("page/basket.rs"), "a wrong room is noticed");
}
