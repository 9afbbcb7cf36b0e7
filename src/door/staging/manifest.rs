//! The list of what was written into a folder, kept in it: what is there, but not on the list, is the author's.

use std::collections::BTreeSet;
use std::path::Path;

use walkdir::DirEntry;

/// The name of the list in a folder that was published.
pub const MANIFEST: &str = ".maulstick";

/// How the first line begins; the number of files follows, which shows whether the list is whole.
const FORMAT: &str = "maulstick published this, format 1, files: ";

/// The paths of the files that one run wrote.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Manifest {
    paths: BTreeSet<String>,
}

/// What the text of a manifest says about its folder.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Reading {
    /// The folder was finished, and this is what was written into it.
    Finished(Manifest),
    /// The folder is still in the making, or was when its run ended: all that is in it is ours or a copy.
    Unfinished,
    /// Not the text of a manifest, or of a kind that is not known here.
    Unknown,
}

impl Manifest {
    /// The list of these files.
    pub(super) fn new(paths: impl IntoIterator<Item = String>) -> Self {
        Self { paths: paths.into_iter().collect() }
    }

    /// The text of the list: the same for the same paths.
    pub(super) fn text(&self) -> String {
        let mut text = format!("{FORMAT}{}\n", self.paths.len());
        for path in &self.paths {
            text.push_str(path);
            text.push('\n');
        }
        text
    }

    /// Reads the text of a list.
    pub(super) fn read(text: &str) -> Reading {
        let Some(rest) = text.strip_prefix(FORMAT) else {
            return if FORMAT.starts_with(text) { Reading::Unfinished } else { Reading::Unknown };
        };
        let mut lines = rest.split_terminator('\n');
        let count = lines.next().and_then(|count| count.parse::<usize>().ok());
        let manifest = Self::new(lines.map(str::to_owned));
        if rest.ends_with('\n') && count == Some(manifest.paths.len()) {
            Reading::Finished(manifest)
        } else {
            Reading::Unfinished
        }
    }

    /// Whether something in the folder, at `below` it, was written by the run that made the list.
    ///
    /// A link or a folder in the place of a listed file was not, and neither was a folder without any listed file.
    pub(super) fn covers(&self, entry: &DirEntry, below: &Path) -> bool {
        let Some(path) = listed(below) else {
            return false;
        };
        let kind = entry.file_type();
        if kind.is_dir() {
            let inside = format!("{path}/");
            return self.paths.range(inside.clone()..).next().is_some_and(|found| found.starts_with(&inside));
        }
        kind.is_file() && (path == MANIFEST || self.paths.contains(&path))
    }
}

/// A path below the folder as the list has it: with slashes on every system.
pub(super) fn listed(below: &Path) -> Option<String> {
    below.iter().map(|part| part.to_str()).collect::<Option<Vec<_>>>().map(|parts| parts.join("/"))
}

#[cfg(test)]
mod tests {
    use std::fs;

    use walkdir::WalkDir;

    use super::*;

    fn manifest(paths: &[&str]) -> Manifest {
        Manifest::new(paths.iter().map(|&path| path.to_owned()))
    }

    #[test]
    fn a_list_reads_back_and_does_not_depend_on_the_order_of_writing() {
        let some = manifest(&["b.html", "a/é.html"]);
        assert_eq!(some.text(), "maulstick published this, format 1, files: 2\na/é.html\nb.html\n");
        assert_eq!(some.text(), manifest(&["a/é.html", "b.html"]).text());
        assert_eq!(Manifest::read(&some.text()), Reading::Finished(some));
        let none = Manifest::default();
        assert_eq!(Manifest::read(&none.text()), Reading::Finished(none));
    }

    #[test]
    fn a_list_that_was_cut_off_anywhere_is_unfinished() {
        let text = manifest(&["a.html", "b.html"]).text();
        for end in 0..text.len() {
            assert_eq!(Manifest::read(&text[..end]), Reading::Unfinished, "{:?}", &text[..end]);
        }
    }

    #[test]
    fn a_foreign_text_is_unknown() {
        for text in ["hello\n", "maulstick published this, format 2, files: 0\n", "\n"] {
            assert_eq!(Manifest::read(text), Reading::Unknown, "{text:?}");
        }
    }

    #[test]
    fn only_what_was_written_is_covered() {
        let folder = tempfile::tempdir().unwrap();
        for path in ["a/b/c", "a/d", "ab/x", "was-a-file/x", ".maulstick"] {
            let full = folder.path().join(path);
            fs::create_dir_all(full.parent().unwrap()).unwrap();
            fs::write(full, "").unwrap();
        }
        #[cfg(unix)]
        std::os::unix::fs::symlink("a/d", folder.path().join("was-a-page")).unwrap();
        let manifest = manifest(&["a/b/c", "was-a-file", "was-a-page"]);
        let covered: Vec<String> = WalkDir::new(folder.path())
            .min_depth(1)
            .sort_by_file_name()
            .into_iter()
            .map(Result::unwrap)
            .filter_map(|entry| {
                let below = entry.path().strip_prefix(folder.path()).unwrap().to_owned();
                manifest.covers(&entry, &below).then(|| listed(&below).unwrap())
            })
            .collect();
        assert_eq!(covered, [".maulstick", "a", "a/b", "a/b/c"]);
    }
}
