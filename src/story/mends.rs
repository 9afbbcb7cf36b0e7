//! New numbers for step files, so that every version of a scheme is in a better order.

use std::cmp::Ordering;
use std::collections::BTreeSet;
use std::io;

use super::{Checked, REGISTRY};
use crate::door::{Door, Renamed};
use crate::film::Conditions;
use crate::guide::{Guide, Scheme, Step};
use crate::report::{Check, Files, Finding, Group, Level, wording};
use crate::rules::{self, Rename};
use crate::source::checks;

/// The keys of the guide's own file by which an order is weighed.
const WEIGHED: &[&str] = &["house-order", "bench", "room", "drop", "pots"];

/// What keeps the guide's own file from being read at all, or leaves out something of the guide.
const UNREAD: &[&Check] = &[
    &checks::FOLDER,
    &checks::YAML,
    &checks::ENCODING,
    &checks::TOO_LARGE,
    &checks::LOCKED,
    &checks::OUTSIDE,
    &checks::GUIDE_SIZE,
];

/// New names for the step files of one scheme, so that they are in a better order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SchemeMend {
    /// What the scheme is called.
    pub title: String,
    /// The folder of its files, from the guide's folder.
    pub folder: String,
    /// The files that get another name, in the order in which they can be renamed one after the other.
    pub renames: Vec<Rename>,
    /// The titles of its steps in the new order; a step that the scheme itself does without says of which version it is.
    pub steps: Vec<String>,
}

/// What came of the search for better orders.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Mends {
    /// The order that each scheme would better be painted in, where its own has faults and a better one was found.
    pub found: Vec<SchemeMend>,
    /// The titles of the schemes for which none was sought, because something of them, of one of their versions or of what the
    /// guide weighs an order by could not be read: without a step that is there no order is known to be better, and its number would seem to be free.
    pub unread: Vec<String>,
}

/// The orders that the schemes of a guide would better be painted in.
pub fn mends(checked: &Checked) -> Mends {
    let guide = &checked.worked.guide;
    let mut mends = Mends::default();
    let mut of_guide = checked.findings.hindering(&checked.files, |path| path == "content/guide.yaml");
    let is_guide_read = !of_guide.any(|error| bears_on_orders(error, &checked.files));
    for base in guide.schemes.iter().filter(|scheme| scheme.version.is_none()) {
        let family = Family { versions: versions_of(guide, base), guide, conditions: &checked.worked.conditions };
        if is_guide_read && family.versions.iter().all(|scheme| scheme.whole) {
            mends.found.extend(family.mend());
        } else {
            mends.unread.push(base.title.clone());
        }
    }
    mends
}

/// Whether an error in the guide's own file leaves it open by what an order is to be weighed: it is at one of the keys for that, or
/// the file can't be read. One at another key, such as the theme, does not.
fn bears_on_orders(error: &Finding, files: &Files) -> bool {
    if UNREAD.iter().any(|check| check.id == error.check.id) {
        return true;
    }
    let (text, range) = (files.text(error.place.file), files.byte_range(error.place));
    let is_at_margin = text.get(..range.start).is_none_or(|before| before.is_empty() || before.ends_with('\n'));
    if error.check.id == checks::MISSING_KEY.id && is_at_margin {
        // What is missing from the file itself, which is told at its first key, is a title or an author.
        return false;
    }
    match key_at(text, range.start) {
        Some(key) if !range.is_empty() => wording::nearest(key, WEIGHED.iter().copied()).is_some(),
        _ => error.check.group != Group::Links,
    }
}

/// The key at the margin that a byte of a file of YAML stands at or under.
fn key_at(text: &str, byte: usize) -> Option<&str> {
    let line_end = text.get(byte..)?.find('\n').map_or(text.len(), |end| byte + end);
    let mut lines = text.get(..line_end)?.lines().rev();
    let line = lines.find(|line| line.starts_with(|c: char| c.is_alphanumeric() || "\"'{".contains(c)))?;
    let (key, _) = line.split_once(':')?;
    // A file that is one group in braces has no such keys.
    (!key.starts_with('{')).then(|| key.trim().trim_matches(['"', '\'']))
}

/// A scheme and all versions of it, the scheme itself first.
fn versions_of<'a>(guide: &'a Guide, base: &Scheme) -> Vec<&'a Scheme> {
    let own = |scheme: &&'a Scheme| {
        scheme.slug == base.slug || scheme.version.as_ref().is_some_and(|version| version.of == base.slug)
    };
    let mut versions: Vec<&Scheme> = guide.schemes.iter().map(AsRef::as_ref).filter(own).collect();
    versions.sort_by_key(|scheme| scheme.version.is_some());
    versions
}

/// A scheme and all versions of it: they are made of the files of one folder, which have one order.
struct Family<'a> {
    guide: &'a Guide,
    conditions: &'a Conditions,
    versions: Vec<&'a Scheme>,
}

impl<'a> Family<'a> {
    fn mend(&self) -> Option<SchemeMend> {
        let base = *self.versions.first()?;
        let stems = self.stems();
        // A step that is in no version would get between others without ever having been looked at.
        let looked_at =
            |stem: &String| self.versions.iter().flat_map(|scheme| &scheme.steps).any(|step| step.stem == *stem);
        if !base.left_out.iter().all(looked_at) {
            return None;
        }
        let own: Vec<Vec<&str>> = self.versions.iter().map(|scheme| files_in(&scheme.steps)).collect();
        let leads = self.versions.iter().enumerate().filter_map(|(at, scheme)| {
            let order = rules::propose_order(self.guide, scheme, self.conditions, REGISTRY)?;
            Some((at, files_in(order.iter().filter_map(|at| scheme.steps.get(*at)))))
        });
        let merged = leads.map(|(at, order)| {
            merged(order, own.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, own)| own))
        });
        let files = merged.into_iter().find(|files| self.is_better(files))?;
        let places: Vec<usize> = files.iter().filter_map(|file| stems.iter().position(|stem| stem == file)).collect();
        Some(SchemeMend {
            title: base.title.clone(),
            folder: format!("content/schemes/{}", base.slug),
            renames: rules::renumber(&stems, &places),
            steps: files.iter().flat_map(|file| self.titles(file)).collect(),
        })
    }

    /// The names of all files, in the order of their numbers.
    fn stems(&self) -> Vec<&'a str> {
        let all: BTreeSet<&str> = self.versions.iter().flat_map(|scheme| files_in(&scheme.steps)).collect();
        let mut stems: Vec<&str> = all.into_iter().collect();
        stems.sort_by_key(|stem| (crate::source::step_number(stem), *stem));
        stems
    }

    /// Whether an order of the files is better for a version, and worse for none.
    fn is_better(&self, files: &[&str]) -> bool {
        let against = |scheme: &&Scheme| {
            let place = |step: &Step| files.iter().position(|file| *file == file_of(step));
            let mut order: Vec<usize> = (0..scheme.steps.len()).collect();
            order.sort_by_key(|at| scheme.steps.get(*at).and_then(place));
            rules::compare_orders(self.guide, scheme, self.conditions, REGISTRY, &order)
        };
        let found: Vec<Option<Ordering>> = self.versions.iter().map(against).collect();
        found.contains(&Some(Ordering::Less)) && found.iter().all(|one| one.is_some_and(Ordering::is_le))
    }

    /// What the steps of a file are called, in the first version that has them.
    fn titles(&self, file: &str) -> Vec<String> {
        let of = |scheme: &&Scheme| -> Vec<String> {
            let steps = scheme.steps.iter().filter(|step| file_of(step) == file);
            let label = scheme.version.as_ref().map(|version| format!(" ({})", version.label)).unwrap_or_default();
            steps.map(|step| format!("{}{label}", step.title)).collect()
        };
        self.versions.iter().map(of).find(|titles| !titles.is_empty()).unwrap_or_default()
    }
}

/// The order of one version's files, and those of others put behind what they follow there.
fn merged<'a>(mut files: Vec<&'a str>, others: impl Iterator<Item = &'a Vec<&'a str>>) -> Vec<&'a str> {
    for own in others {
        let mut before: Option<&str> = None;
        for file in own {
            if !files.contains(file) {
                let after = before.and_then(|before| files.iter().position(|file| *file == before));
                files.insert(after.map_or(0, |at| at + 1), file);
            }
            before = Some(file);
        }
    }
    files
}

/// The files of steps, each once: a file that stands for a sequence is several steps, which stay together.
fn files_in<'a>(steps: impl IntoIterator<Item = &'a Step>) -> Vec<&'a str> {
    let mut files: Vec<&str> = Vec::new();
    for step in steps {
        let file = file_of(step);
        if !files.contains(&file) {
            files.push(file);
        }
    }
    files
}

/// The name of the file that a step is of, in the folder of its scheme.
fn file_of(step: &Step) -> &str {
    step.via.as_ref().map_or(step.stem.as_str(), |via| via.stem.as_str())
}

/// The first error that the guide behind a door has once the files of a mend have their new names, and has not now, but for those
/// of rules, which the order was weighed by: something names one of them by its number.
///
/// # Errors
/// When the guide can't be read.
pub fn breaks(door: &dyn Door, checked: &Checked, mend: &SchemeMend) -> io::Result<Option<String>> {
    // Where one file follows another into its name, only where each begins and ends counts.
    let mut names: Vec<(String, String)> = Vec::new();
    for Rename { from, to } in &mend.renames {
        match names.iter_mut().find(|(_, so_far)| so_far == from) {
            Some((_, so_far)) => so_far.clone_from(to),
            None => names.push((from.clone(), to.clone())),
        }
    }
    let door = Renamed::of(door, names.iter().map(|(from, to)| (path_of(mend, from), path_of(mend, to))));
    let after = super::check(&door)?;
    // What is behind the door has its new names, and the author's folder has not.
    let own = |path: &str| -> String {
        let old = names.iter().find(|(_, to)| path_of(mend, to) == path);
        old.map_or_else(|| path.to_owned(), |(from, _)| path_of(mend, from))
    };
    let errors = |checked: &Checked, own: &dyn Fn(&str) -> String| -> Vec<(&'static str, String)> {
        let is_rule = |id: &str| rules::RULES.iter().any(|rule| rule.check.id == id);
        let errors = checked.findings.iter().filter(|found| found.level == Level::Error && !is_rule(found.check.id));
        errors
            .map(|found| (found.check.id, format!("{}: {}", own(checked.files.path(found.place.file)), found.message)))
            .collect()
    };
    let (now, then) = (errors(checked, &str::to_owned), errors(&after, &own));
    let counted = |id: &str, all: &[(&str, String)]| all.iter().filter(|(other, _)| *other == id).count();
    let is_new = |(id, said): &&(&str, String)| {
        counted(id, &then) > counted(id, &now) && !now.iter().any(|(_, known)| known == said)
    };
    Ok(then.iter().find(is_new).map(|(_, said)| said.clone()))
}

/// The path of a step's file from the guide's folder.
fn path_of(mend: &SchemeMend, stem: &str) -> String {
    format!("{}/{stem}.md", mend.folder)
}

/// Gives the files of a mend their new names; no text changes. Every file has its old or its new name at any moment.
///
/// # Errors
/// When a file can't be renamed; those before it get their old names back.
pub fn carry_out(door: &dyn Door, mend: &SchemeMend) -> io::Result<()> {
    let path = |stem: &str| path_of(mend, stem);
    for (at, Rename { from, to }) in mend.renames.iter().enumerate() {
        let Err(error) = door.rename(&path(from), &path(to)) else { continue };
        for Rename { from, to } in mend.renames.iter().take(at).rev() {
            // What can't be put back either has its new name, and the error says that not all was done.
            let _ = door.rename(&path(to), &path(from));
        }
        return Err(error);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::door::Memory;

    /// The titles of the schemes for which no order was sought, where the guide's own file ends with these lines.
    fn unread(lines: &str) -> Vec<String> {
        unread_of(&format!("title: Test\nauthor: Quill Hollis\n{lines}"))
    }

    fn unread_of(guide: &str) -> Vec<String> {
        let door = Memory::default()
            .with("content/guide.yaml", guide)
            .with("content/schemes/warden/scheme.md", "---\ntitle: Warden\nareas: {shell: 100%}\n---\n")
            .with(
                "content/schemes/warden/10-clean.md",
                "---\ntitle: Clean\nstage: prepare\nwith: brush\nareas: [all]\n---\nClean it.\n",
            );
        mends(&crate::story::check(&door).unwrap()).unread
    }

    #[test]
    fn only_errors_of_what_an_order_is_weighed_by_hinder_the_search() {
        assert_eq!(unread_of("room: {humidity: 50%}\ntitle: Test\n"), Vec::<String>::new());
        for lines in [
            "",
            "theme: nosuch\n",
            "language: xx\n",
            "currency: euro\n",
            "languge: en\n",
            "room: {humidity: 50%}\ncurrency: euro\n",
            "room:\n  humidity: 50%\n# a note\ncurrency: euro\n",
            "paper: a9\n",
        ] {
            assert_eq!(unread(lines), Vec::<String>::new(), "{lines}");
        }
        for lines in [
            "room: {humidity: wet}\n",
            "rooom: {humidity: 50%}\n",
            "bench:\n  no-such-figure: 3\n",
            "house-order:\n- first: glaze\n  then: wash\n  whi: It runs.\n",
            "\"house-order\": [{first: glase, then: wash, why: It runs.}]\n",
            "drop: much\n",
            "pots: [a]\n",
            "theme: [\n",
        ] {
            assert_eq!(unread(lines), ["Warden"], "{lines}");
        }
    }

    #[test]
    fn no_other_key_of_the_guide_is_taken_for_one_that_is_weighed() {
        let others = "title author summary address language currency paper licence theme fonts raw-html welcome groups";
        for key in others.split(' ') {
            assert_eq!(wording::nearest(key, WEIGHED.iter().copied()), None, "{key}");
        }
    }

    #[test]
    fn a_place_in_the_guide_s_own_file_has_its_key() {
        let text = "# a\ntitle: A\nbench:\n- a: 1\n# b\n  b: 2\n'room' : {}\n";
        for (at, key) in [
            ("# a", None),
            ("A\n", Some("title")),
            ("bench", Some("bench")),
            ("a: 1", Some("bench")),
            ("2", Some("bench")),
            ("{}", Some("room")),
        ] {
            assert_eq!(key_at(text, text.find(at).unwrap()), key, "{at}");
        }
        assert_eq!(key_at("{title: a, room: {}}", 14), None);
        assert_eq!(key_at("", 0), None);
    }
}
