//! Text files where nothing looks for them: what a guide misses that stands in one of them, and what is said of each.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::layout::{CONTENT, Part, Stray};
use super::names::{Kind, Names, is_of_id};
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

/// How one of them stands to the guide.
#[derive(Clone, Copy)]
struct State {
    /// Whether the guide misses what stands in it.
    is_missed: bool,
    /// Whether another file is at the path at which it would be read, or is told to go there.
    is_taken: bool,
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
        let states = self.states(source);
        let mut lost = Vec::new();
        let mut findings = Vec::new();
        let mut folders: BTreeMap<(String, &'static str), Vec<(&Found, State)>> = BTreeMap::new();
        for (found, state) in self.found.iter().zip(states) {
            let path = source.files.path(found.file).to_owned();
            let own = own_path(&path);
            if let Some(meant) = found.stray.folder {
                let folder = own.split('/').next().unwrap_or_default().to_owned();
                folders.entry((folder, meant)).or_default().push((found, state));
                continue;
            }
            findings.push(finding(found, own, state));
            lost.extend(found.stray.path.clone().filter(|_| state.is_missed).map(|path| (found.file, path)));
        }
        for ((folder, meant), files) in folders {
            let Some((first, _)) = files.first() else { continue };
            let is_missed = files.iter().any(|(_, state)| state.is_missed);
            let inside = format!("{CONTENT}/{meant}/");
            let is_there = self.read.iter().any(|file| source.files.path(*file).starts_with(&inside));
            let message = format!("nothing looks for files in the folder {}", wording::quoted(&folder));
            let mend = if is_there { "move what is in it to" } else { "rename it to" };
            let taken = if files.iter().any(|(_, state)| state.is_taken) {
                "; of a file that is there too, move only what is missing into that one"
            } else {
                ""
            };
            let mend = format!("{mend} {}{taken}", wording::quoted(meant));
            let finding = Finding::new(&checks::NOT_READ, Place::top_of(first.file), message, mend);
            findings.push(if is_missed { finding.at(Level::Error) } else { finding });
            // A link to any of them is no second mistake.
            let paths = files.iter().filter_map(|(found, _)| Some((found.file, found.stray.path.clone()?)));
            lost.extend(paths.filter(|_| is_missed));
        }
        source.findings.extend(findings);
        lost
    }

    /// How each of them stands to the guide.
    fn states(&self, source: &Source) -> Vec<State> {
        let mut taken: BTreeSet<&str> = self.read.iter().map(|file| own_path(source.files.path(*file))).collect();
        let paints = source.paints.iter().flat_map(|range| &range.paints).flat_map(|paints| &paints.value.0);
        let paints: BTreeSet<&str> = paints.map(|(id, _)| id.value.0.as_str()).collect();
        let names = self.names(source, &paints);
        let (paints, tools) = (names.without(Kind::Paint, &paints), names.without(Kind::Tool, &BTreeSet::new()));
        let sequences = names.without(Kind::Sequence, &BTreeSet::new());
        let is_named = |held: &Held, missing: &BTreeSet<&str>| {
            held.is_torn && !missing.is_empty() || held.ids.iter().any(|id| missing.contains(id.as_str()))
        };
        let mut states = Vec::with_capacity(self.found.len());
        for found in &self.found {
            let path = found.stray.path.as_deref();
            let is_taken = path.is_some_and(|path| taken.contains(path));
            let is_missed = match found.stray.meant() {
                // Two files that are called alike hold different paints.
                Part::Paints => is_named(&found.held, &paints),
                Part::Tools => !is_taken && is_named(&found.held, &tools),
                Part::Guide | Part::Scheme(_) | Part::Step(..) | Part::SequenceStep(..) => !is_taken,
                Part::Sequence(slug) => !is_taken && sequences.contains(slug.as_str()),
                _ => false,
            };
            taken.extend(path.filter(|_| is_missed));
            states.push(State { is_missed, is_taken });
        }
        states
    }

    /// What the guide names, as far as it may stand in one of them: no other file is parsed for it.
    fn names(&self, source: &Source, paints: &BTreeSet<&str>) -> Names {
        let mut wanted: BTreeSet<String> = BTreeSet::new();
        for found in &self.found {
            wanted.extend(found.held.ids.iter().filter(|id| !paints.contains(id.as_str())).cloned());
            if let Part::Sequence(slug) = found.stray.meant() {
                wanted.insert(slug);
            }
        }
        let is_torn = self.found.iter().any(|found| found.held.is_torn);
        let mut names = Names::default();
        for file in self.read.iter().filter(|_| is_torn || !wanted.is_empty()) {
            let text = source.files.text(*file);
            if is_torn || text.split(|sign| !is_of_id(sign)).any(|word| wanted.contains(word)) {
                names.add(*file, text, source.files.path(*file).strip_suffix(".md").is_none());
            }
        }
        names
    }
}

/// The path of a file from the content folder.
fn own_path(path: &str) -> &str {
    path.strip_prefix(CONTENT).and_then(|path| path.strip_prefix('/')).unwrap_or(path)
}

/// What is said of one that stands alone.
fn finding(found: &Found, own: &str, state: State) -> Finding {
    let top = Place::top_of(found.file);
    let plain = "nothing looks for a file in this place";
    let Some(path) = found.stray.path.as_deref().filter(|_| state.is_missed) else {
        return Finding::new(&checks::NOT_READ, top, plain, found.stray.hint);
    };
    let folder = |path: &str| path.rsplit_once('/').map(|(folder, _)| folder.to_owned());
    let name = path.rsplit('/').next().unwrap_or(path);
    let mend = if state.is_taken {
        format!("move what is missing into {}", wording::quoted(&format!("{CONTENT}/{path}")))
    } else if folder(path) == folder(own) {
        format!("rename it to {}", wording::quoted(name))
    } else {
        format!("move it to {}", wording::quoted(&format!("{CONTENT}/{path}")))
    };
    if let Some(things) = found.stray.holds() {
        let message = format!("{plain}, and the guide names {things} that stand in it");
        return Finding::new(&checks::NOT_READ, top, message, mend).at(Level::Error);
    }
    if matches!(found.stray.meant(), Part::Step(..) | Part::SequenceStep(..)) {
        let message = "this file is called like a step, and is not read: its name does not end with '.md'";
        return Finding::new(&checks::NOT_READ, top, message, mend);
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

    const SCHEME: (&str, &str) =
        ("content/schemes/a/scheme.md", "---\ntitle: A\nareas: {brown: 100%}\n---\nBrown, brown.\n");
    const STEP: (&str, &str) = (
        "content/schemes/a/10-b.md",
        "---\ntitle: A\nstage: basecoat\nareas: [brown]\nwith: brush\npaints: [moss]\n---\n",
    );
    const PAINTS: (&str, &str) =
        ("content/paints/own.yaml", "maker: A\nrange: B\nfamily: water\npaints:\n  moss: {name: Moss, kind: paint}\n");

    #[test]
    fn a_torn_file_is_missed_where_the_guide_names_what_is_nowhere() {
        let torn = ("content/paints/a.yml", "paints:\n  moss: {name: \"Moss}\n");
        let got = told(&[GUIDE, SCHEME, STEP, torn]);
        assert_eq!(got, ["file-not-read Error: rename it to 'a.yaml'"]);
        for guide in [[GUIDE, SCHEME, STEP, PAINTS].as_slice(), &[GUIDE, SCHEME], &[GUIDE]] {
            let got = told(&[guide, &[torn]].concat());
            assert_eq!(got, ["file-not-read Warning: end its name with '.yaml'"]);
        }
        for text in ["todo: [buy\n", "", "paints: []\n", "paints:\n  reed: {name: Moss}\n"] {
            let got = told(&[GUIDE, SCHEME, STEP, ("content/paints/a.yml", text)]);
            assert_eq!(got, ["file-not-read Warning: end its name with '.yaml'"], "{text}");
        }
    }

    #[test]
    fn a_step_with_another_ending_is_told_with_its_whole_name() {
        for name in ["20-varnish.txt", "20-varnish", "20-varnish.MD"] {
            let got = told(&[GUIDE, SCHEME, STEP, PAINTS, (&format!("content/schemes/a/{name}"), STEP.1)]);
            assert_eq!(got, ["file-not-read Warning: rename it to '20-varnish.md'"], "{name}");
        }
        let got = told(&[GUIDE, SCHEME, STEP, PAINTS, ("content/schemes/a/10-b.txt", "Notes.")]);
        assert_eq!(got, ["file-not-read Warning: end its name with '.md'"]);
        let got = told(&[GUIDE, SCHEME, STEP, PAINTS, ("content/schemes/a/20 Matt Coat.md", STEP.1)]);
        assert!(got.contains(&"file-name Error: rename it to '20-matt-coat.md'".to_owned()), "{got:?}");
    }

    #[test]
    fn a_word_that_is_no_name_misses_nothing() {
        let hint =
            "the folders are paints, schemes, sequences, armies and pages; beside them are guide.yaml and tools.yaml";
        let old = ("content/old/ideas.yaml", "paints:\n  brown: {name: Brown}\n  brush: {name: Brush}\n");
        let got = told(&[GUIDE, SCHEME, STEP, PAINTS, old]);
        assert_eq!(got, [format!("file-not-read Warning: {hint}")]);
        let page = ("content/pages/b.md", "---\ntitle: B\n---\n[It](paint:brown)\n");
        let got = told(&[GUIDE, SCHEME, STEP, PAINTS, page, old]);
        assert_eq!(got, ["file-not-read Error: move it to 'content/paints/ideas.yaml'"]);
    }

    #[test]
    fn nothing_is_moved_over_another_file() {
        let step = (STEP.0, "---\ntitle: A\nstage: basecoat\nareas: [brown]\nwith: brush\npaints: [moss, reed]\n---\n");
        let old = |path: &'static str| (path, "paints:\n  reed: {name: Reed}\n");
        let got = told(&[GUIDE, SCHEME, step, PAINTS, old("content/paints/backup/own.yaml")]);
        assert_eq!(got, ["file-not-read Error: move what is missing into 'content/paints/own.yaml'"]);
        let got = told(&[GUIDE, SCHEME, step, PAINTS, old("content/a/x.yaml"), old("content/b/x.yaml")]);
        assert_eq!(
            got,
            [
                "file-not-read Error: move it to 'content/paints/x.yaml'",
                "file-not-read Error: move what is missing into 'content/paints/x.yaml'"
            ]
        );
        let got = told(&[GUIDE, SCHEME, step, PAINTS, old("content/paint/own.yaml")]);
        let mend =
            "move what is in it to 'paints'; of a file that is there too, move only what is missing into that one";
        assert_eq!(got, [format!("file-not-read Error: {mend}")]);
    }
}
