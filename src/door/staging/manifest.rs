//! The list of what was written into a folder, kept in it: what is there, but not on the list, is the author's.
//!
//! Behind each path stands a [`Note`]: the hash of the file, and that of all it was made from. A later run takes over what
//! it would make from the same again. The first line has the hash of all the others; where it is not theirs, the list was
//! changed by somebody, and its notes count for nothing. Nor has the list of an older program any.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::Read;
use std::path::Path;

use walkdir::DirEntry;

use super::super::Note;
use super::super::digest::Digest;
use super::super::system;

/// The name of the list in a folder that was published.
pub const MANIFEST: &str = ".maulstick";

/// How the first line begins; the format follows.
const FORMAT: &str = "maulstick published this, format ";

/// The format of an older program: nothing but the number of files, and their paths.
const PLAIN: &str = "1, files: ";

/// The number of files follows, which shows whether the list is whole.
const NOTED: &str = "2, files: ";

/// What is between the number of files and the hash of all lines but the first.
const NOTES: &str = ", notes: ";

/// Stands for a hash that there is not.
const NONE: &str = "-";

/// The files that one run wrote, by their paths.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(in crate::door) struct Manifest {
    files: BTreeMap<Box<str>, Option<Note>>,
}

/// What the text of a manifest says about its folder.
#[derive(Debug, PartialEq, Eq)]
pub(in crate::door) enum Reading {
    /// The folder was finished, and this is what was written into it.
    Finished(Manifest),
    /// The folder is still in the making, or was when its run ended: all that is in it is ours or a copy.
    Unfinished,
    /// Not the text of a manifest, or of a kind that is not known here.
    Unknown,
}

impl Manifest {
    /// The list of these files, each with what is noted of it.
    pub(in crate::door) fn new(files: impl IntoIterator<Item = (Box<str>, Option<Note>)>) -> Self {
        Self { files: files.into_iter().collect() }
    }

    /// The list in a published folder, if it can be read.
    pub(super) fn standing(folder: &Path) -> Option<Self> {
        let mut text = String::new();
        system::open(&folder.join(MANIFEST)).ok()?.read_to_string(&mut text).ok()?;
        match Self::read(&text) {
            Reading::Finished(list) => Some(list),
            Reading::Unfinished | Reading::Unknown => None,
        }
    }

    /// What is noted of a file.
    pub(in crate::door) fn note(&self, path: &str) -> Option<Note> {
        *self.files.get(path)?
    }

    /// The text of the list: the same for the same files and notes.
    pub(in crate::door) fn text(&self) -> String {
        text(self.files.len(), self.files.iter().map(|(path, note)| (&**path, *note)))
    }

    /// Reads the text of a list.
    pub(in crate::door) fn read(text: &str) -> Reading {
        let Some(rest) = text.strip_prefix(FORMAT) else {
            return if FORMAT.starts_with(text) { Reading::Unfinished } else { Reading::Unknown };
        };
        let (first, lines) = rest.split_once('\n').unwrap_or((rest, ""));
        let (count, manifest) = if let Some(count) = first.strip_prefix(PLAIN) {
            (count, Some(Self::new(lines.split_terminator('\n').map(|path| (path.into(), None)))))
        } else if let Some(head) = first.strip_prefix(NOTED) {
            let (count, hash) = head.split_once(NOTES).unwrap_or((head, ""));
            (count, Self::noted(lines, Digest::read(hash) == Some(Digest::of([lines.as_bytes()]))))
        } else if [PLAIN, NOTED].iter().any(|format| format.starts_with(first)) {
            return Reading::Unfinished;
        } else {
            return Reading::Unknown;
        };
        match manifest {
            Some(manifest) if rest.ends_with('\n') && count.parse() == Ok(manifest.files.len()) => {
                Reading::Finished(manifest)
            }
            _ => Reading::Unfinished,
        }
    }

    /// The files of lines with notes, which count only where nobody changed the list; nothing where a line is none.
    fn noted(lines: &str, unchanged: bool) -> Option<Self> {
        let file = |line: &str| {
            let mut parts = line.splitn(3, ' ');
            let (bytes, from, path) = (parts.next()?, parts.next()?, parts.next()?);
            let bytes = Digest::read(bytes).filter(|_| unchanged);
            let note = bytes.map(|bytes| Note { bytes, from: Digest::read(from) });
            Some((path.into(), note))
        };
        Some(Self { files: lines.split_terminator('\n').map(file).collect::<Option<_>>()? })
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
            return self
                .files
                .range(Box::from(inside.as_str())..)
                .next()
                .is_some_and(|(found, _)| found.starts_with(&inside));
        }
        kind.is_file() && (path == MANIFEST || self.files.contains_key(path.as_str()))
    }
}

/// The text of a list of so many files, which come in the order of their paths.
pub(super) fn text<'a>(count: usize, files: impl Iterator<Item = (&'a str, Option<Note>)>) -> String {
    let mut lines = String::new();
    for (path, note) in files {
        for hash in [note.map(|note| note.bytes), note.and_then(|note| note.from)] {
            // Nothing stops a text from being written to.
            let _ = match hash {
                Some(hash) => write!(lines, "{hash} "),
                None => write!(lines, "{NONE} "),
            };
        }
        lines.extend([path, "\n"]);
    }
    let first = format!("{FORMAT}{NOTED}{count}{NOTES}{}\n", Digest::of([lines.as_bytes()]));
    lines.insert_str(0, &first);
    lines
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
        Manifest::new(paths.iter().map(|&path| (path.into(), None)))
    }

    /// The hash of a text.
    fn hash(text: &str) -> Digest {
        Digest::of([text.as_bytes()])
    }

    fn noted(path: &str, from: Option<&str>) -> (Box<str>, Option<Note>) {
        (path.into(), Some(Note { bytes: hash("hash"), from: from.map(hash) }))
    }

    #[test]
    fn the_list_of_an_older_program_has_no_notes() {
        let text = "maulstick published this, format 1, files: 2\na/é.html\nb b.html\n";
        assert_eq!(Manifest::read(text), Reading::Finished(manifest(&["a/é.html", "b b.html"])));
        for end in 0..text.len() {
            let cut = text.get(..end).unwrap_or_default();
            assert_eq!(Manifest::read(cut), Reading::Unfinished, "{cut:?}");
        }
    }

    #[test]
    fn the_notes_of_a_list_that_somebody_changed_count_for_nothing() {
        let some = Manifest::new([noted("a.html", Some("from")), noted("b.html", Some("from"))]);
        let text = some.text();
        let [bytes, from] = ["hash", "from"].map(|text| hash(text).to_string());
        let line = format!("{bytes} {from} a");
        for (old, new) in
            [(&*line, &*format!("{bytes} {bytes} a")), (&line, &format!("{from} {from} a")), ("notes: ", "notes: 0")]
        {
            let read = Manifest::read(&text.replacen(old, new, 1));
            assert_eq!(read, Reading::Finished(manifest(&["a.html", "b.html"])), "{old} → {new}");
        }
        assert_eq!(Manifest::read(&text.replacen(&line, &format!("{bytes} a"), 1)), Reading::Unfinished);
    }

    #[test]
    fn a_list_reads_back_and_does_not_depend_on_the_order_of_writing() {
        let some = Manifest::new([noted("b.html", Some("from")), ("a/é x.html".into(), None), noted("c", None)]);
        let [bytes, from] = ["hash", "from"].map(|text| hash(text).to_string());
        let lines = format!("- - a/é x.html\n{bytes} {from} b.html\n{bytes} - c\n");
        let first = format!("maulstick published this, format 2, files: 3, notes: {}\n", hash(&lines));
        assert_eq!(some.text(), first + &lines);
        assert_eq!(manifest(&["b.html", "a"]).text(), manifest(&["a", "b.html"]).text());
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
        for text in ["hello\n", "maulstick published this, format 3, files: 0\n", "\n"] {
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
