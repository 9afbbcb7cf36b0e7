//! Text files where nothing looks for them: what a guide misses that stands in one of them, and what is said of each.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::layout::{CONTENT, Part, Stray};
use super::node::{Node, NodeValue};
use super::{Source, checks, yaml};
use crate::report::{FileId, Finding, Level, Place, wording};

/// The paints or tools of a file that nothing looks for.
#[derive(Debug, Default)]
pub(super) struct Held {
    /// Their ids.
    ids: BTreeSet<String>,
    /// Whether there are some and the file is not YAML.
    is_torn: bool,
}

impl Held {
    /// What such a file holds.
    pub(super) fn of(text: &str, file: FileId, stray: &Stray) -> Self {
        let Some(key) = stray.holds() else { return Self::default() };
        match yaml::parse(text, file, 0) {
            Ok(Node { value: NodeValue::Map(pairs), .. }) => {
                let group = pairs.into_iter().find(|(name, _)| name.value == key).map(|(_, node)| node.value);
                let Some(NodeValue::Map(entries)) = group else { return Self::default() };
                Self { ids: entries.into_iter().map(|(id, _)| id.value).collect(), is_torn: false }
            }
            Ok(_) => Self::default(),
            Err(_) => {
                let is_key = |line: &str| line.strip_prefix(key).is_some_and(|rest| rest.starts_with(':'));
                Self { ids: BTreeSet::new(), is_torn: text.lines().any(is_key) }
            }
        }
    }
}

/// One of them.
struct Found {
    file: FileId,
    stray: Stray,
    held: Arc<Held>,
}

/// All of them, and the files that are read beside them.
#[derive(Default)]
pub(super) struct Strays {
    found: Vec<Found>,
    /// The files that are read.
    pub(super) read: Vec<FileId>,
}

impl Strays {
    /// Adds one that nothing looks for.
    pub(super) fn add(&mut self, file: FileId, stray: &Stray, held: &Arc<Held>) {
        self.found.push(Found { file, stray: stray.clone(), held: Arc::clone(held) });
    }

    /// Tells of all of them. Of those that the guide misses, it gives the file and the path at which it would be read.
    pub(super) fn tell(&self, source: &mut Source) -> Vec<(FileId, String)> {
        if self.found.is_empty() {
            return Vec::new();
        }
        let missed = self.missed(source);
        let mut lost = Vec::new();
        let mut findings = Vec::new();
        let mut folders: BTreeMap<(String, &'static str), Vec<(&Found, bool)>> = BTreeMap::new();
        for (found, is_missed) in self.found.iter().zip(missed) {
            let path = source.files.path(found.file).to_owned();
            let own = own_path(&path);
            if let Some(meant) = found.stray.folder {
                let folder = own.split('/').next().unwrap_or_default().to_owned();
                folders.entry((folder, meant)).or_default().push((found, is_missed));
                continue;
            }
            findings.push(finding(found, own, is_missed));
            lost.extend(found.stray.path.clone().filter(|_| is_missed).map(|path| (found.file, path)));
        }
        for ((folder, meant), files) in folders {
            let Some((first, _)) = files.first() else { continue };
            let is_missed = files.iter().any(|(_, is_missed)| *is_missed);
            let inside = format!("{CONTENT}/{meant}/");
            let is_there = self.read.iter().any(|file| source.files.path(*file).starts_with(&inside));
            let message = format!("nothing looks for files in the folder {}", wording::quoted(&folder));
            let mend = if is_there { "move what is in it to" } else { "rename it to" };
            let mend = format!("{mend} {}", wording::quoted(meant));
            let finding = Finding::new(&checks::NOT_READ, Place::top_of(first.file), message, mend);
            findings.push(if is_missed { finding.at(Level::Error) } else { finding });
            // A link to any of them is no second mistake.
            let paths = files.iter().filter_map(|(found, _)| Some((found.file, found.stray.path.clone()?)));
            lost.extend(paths.filter(|_| is_missed));
        }
        source.findings.extend(findings);
        lost
    }

    /// Whether the guide misses what stands in each of them.
    fn missed(&self, source: &Source) -> Vec<bool> {
        let paths: BTreeSet<&str> = self.read.iter().map(|file| own_path(source.files.path(*file))).collect();
        let is_word = |c: char| c.is_ascii_alphanumeric() || c == '-';
        // Most of them hold nothing that others name, and no text is looked through for those.
        let is_asked = |found: &Found| !found.held.ids.is_empty() || matches!(found.stray.meant(), Part::Sequence(_));
        let asked = self.found.iter().any(is_asked);
        let texts = self.read.iter().filter(|_| asked).map(|file| source.files.text(*file));
        let words: BTreeSet<&str> = texts.flat_map(|text| text.split(|c| !is_word(c))).collect();
        let paints = source.paints.iter().flat_map(|range| &range.paints).flat_map(|paints| &paints.value.0);
        let known: BTreeSet<&str> = paints.map(|(id, _)| id.value.0.as_str()).collect();
        let is_named = |held: &Held| {
            held.is_torn || held.ids.iter().any(|id| words.contains(id.as_str()) && !known.contains(id.as_str()))
        };
        let is_missed = |found: &Found| {
            let is_taken = found.stray.path.as_deref().is_some_and(|path| paths.contains(path));
            match found.stray.meant() {
                // A range may be spread over files that are called alike.
                Part::Paints => is_named(&found.held),
                Part::Tools => !is_taken && is_named(&found.held),
                Part::Guide | Part::Scheme(_) => !is_taken,
                Part::Sequence(slug) => !is_taken && words.contains(slug.as_str()),
                _ => false,
            }
        };
        self.found.iter().map(is_missed).collect()
    }
}

/// The path of a file from the content folder.
fn own_path(path: &str) -> &str {
    path.strip_prefix(CONTENT).and_then(|path| path.strip_prefix('/')).unwrap_or(path)
}

/// What is said of one that stands alone.
fn finding(found: &Found, own: &str, is_missed: bool) -> Finding {
    let top = Place::top_of(found.file);
    let plain = "nothing looks for a file in this place";
    let Some(path) = found.stray.path.as_deref().filter(|_| is_missed) else {
        return Finding::new(&checks::NOT_READ, top, plain, found.stray.hint);
    };
    let folder = |path: &str| path.rsplit_once('/').map(|(folder, _)| folder.to_owned());
    let name = path.rsplit('/').next().unwrap_or(path);
    let mend = if folder(path) == folder(own) {
        format!("rename it to {}", wording::quoted(name))
    } else {
        format!("move it to {}", wording::quoted(&format!("{CONTENT}/{path}")))
    };
    if let Some(things) = found.stray.holds() {
        let message = format!("{plain}, and the guide names {things} that stand in it");
        return Finding::new(&checks::NOT_READ, top, message, mend).at(Level::Error);
    }
    let what = match found.stray.meant() {
        Part::Scheme(_) => "scheme",
        Part::Sequence(_) => "sequence",
        _ => "guide",
    };
    let message = format!("the own file of a {what} is called '{name}', and this one is not quite");
    Finding::new(&checks::FOLDER, top, message, mend)
}

#[cfg(test)]
mod tests {
    use super::super::read;
    use crate::door::Memory;

    /// What is told of a guide whose files these are: the check, the level and the mend of each finding.
    fn told(files: &[(&str, &str)]) -> Vec<String> {
        let door = files.iter().fold(Memory::default(), |door, (path, text)| door.with(path, *text));
        let findings = read(&door).unwrap().findings;
        findings.iter().map(|one| format!("{} {:?}: {}", one.check.id, one.level(), one.mend)).collect()
    }

    const GUIDE: (&str, &str) = ("content/guide.yaml", "title: A\nauthor: B\n");

    #[test]
    fn a_guide_under_another_name_is_told_once() {
        for name in ["Guide.yaml", "guide.yml", "guide.yaml.txt"] {
            let got = told(&[(&format!("content/{name}"), GUIDE.1)]);
            assert_eq!(got, ["file-missing Error: rename it to 'guide.yaml'"], "{name}");
        }
        let got = told(&[GUIDE, ("content/guide.yml", GUIDE.1)]);
        assert_eq!(got, ["file-not-read Warning: end its name with '.yaml'"]);
    }

    #[test]
    fn schemes_in_another_folder_are_told_once() {
        let scheme = "---\ntitle: A\nareas: {coat: 100%}\n---\n";
        let step = "---\ntitle: A\nstage: basecoat\nareas: [coat]\nwith: brush\n---\n";
        let got = told(&[GUIDE, ("content/Schemes/a/scheme.md", scheme), ("content/Schemes/a/10-b.md", step)]);
        assert_eq!(got, ["file-not-read Error: rename it to 'schemes'"]);
        let got = told(&[GUIDE, ("content/schemes/a/scheme.md.txt", scheme), ("content/schemes/a/10-b.md", step)]);
        assert_eq!(got, ["file-missing Error: rename it to 'scheme.md'"]);
    }

    #[test]
    fn a_torn_file_of_paints_is_missed_and_any_other_is_not() {
        let got = told(&[GUIDE, ("content/paints/a.yml", "paints:\n  moss: {name: \"Moss}\n")]);
        assert_eq!(got, ["file-not-read Error: rename it to 'a.yaml'"]);
        for text in ["todo: [buy\n", "", "paints: []\n", "paints:\n  moss: {name: Moss}\n"] {
            let got = told(&[GUIDE, ("content/paints/a.yml", text)]);
            assert_eq!(got, ["file-not-read Warning: end its name with '.yaml'"], "{text}");
        }
    }
}
