//! The list of what was written into a folder, kept in it: what is there, but not on the list, is the author's.
//!
//! Before each path stands a [`Note`]: the hash of the file, its checksum, and the hash of all it was made from. A later run
//! takes over what it would make from the same again. The first line has the hash of all the others; where it is not
//! theirs, the list was changed by somebody, and its notes count for nothing. Nor has the list of an older program any.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{MAIN_SEPARATOR, Path};

use rayon::prelude::*;
use walkdir::DirEntry;

use super::super::Note;
use super::super::checksum::Checksum;
use super::super::digest::Digest;

/// The name of the list in a folder that was published.
pub const MANIFEST: &str = ".maulstick";

/// How the first line begins; the format follows.
const FORMAT: &str = "maulstick published this, format ";

/// The formats of older programs: how many words stand before each path. What they are is not asked.
const OLDER: [(&str, usize); 2] = [("1, files: ", 0), ("2, files: ", 2)];

/// The format that is written here.
const NEWEST: u32 = 3;

/// The number of files follows, which shows whether the list is whole.
const NOTED: &str = "3, files: ";

/// What is between the number of files and the hash of all lines but the first.
const NOTES: &str = ", notes: ";

/// Stands for a hash that there is not.
const NONE: &str = "-";

/// A list is written in pieces of so many bytes and a little more: that of a large site is tens of megabytes.
const PIECE: usize = 64_000;

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
    /// The text of a manifest as a newer program writes it.
    Newer,
    /// Not the text of a manifest.
    Unknown,
}

/// A list as it was read last: while its text is the same, it need not be taken apart again.
#[derive(Debug, Default)]
pub(super) struct LastRead {
    /// What the list says; nothing, if none was read that is whole.
    pub(super) list: Manifest,
    text: Option<Checksum>,
}

impl LastRead {
    /// What a text says, if it is a whole list.
    pub(super) fn read(&mut self, text: &[u8]) -> Option<&Manifest> {
        let sum = Some(Checksum::of(text));
        if self.text != sum {
            let read = Manifest::read_bytes(text);
            *self = match read {
                Reading::Finished(list) => Self { list, text: sum },
                Reading::Unfinished | Reading::Newer | Reading::Unknown => Self::default(),
            };
        }
        self.text.is_some().then_some(&self.list)
    }
}

impl Manifest {
    /// The list of these files, each with what is noted of it.
    pub(in crate::door) fn new(files: impl IntoIterator<Item = (Box<str>, Option<Note>)>) -> Self {
        Self { files: files.into_iter().collect() }
    }

    /// What is noted of a file.
    pub(in crate::door) fn note(&self, path: &str) -> Option<Note> {
        *self.files.get(path)?
    }

    /// The text of the list: the same for the same files and notes.
    pub(in crate::door) fn text(&self) -> String {
        let lines: String = lines(self.files.iter().map(|(path, note)| (&**path, *note))).collect();
        first_line(self.files.len(), Digest::of([&lines])) + &lines
    }

    /// Reads the text of a list, as it is in its file.
    pub(super) fn read_bytes(text: &[u8]) -> Reading {
        std::str::from_utf8(text).map_or(Reading::Unknown, Self::read)
    }

    /// Reads the text of a list, whatever ends its lines: a store of versions may have brought those of its system in.
    pub(in crate::door) fn read(text: &str) -> Reading {
        // No path has such a character in it.
        if text.contains('\r') { Self::read_lines(&text.replace("\r\n", "\n")) } else { Self::read_lines(text) }
    }

    fn read_lines(text: &str) -> Reading {
        let Some(rest) = text.strip_prefix(FORMAT) else {
            return if FORMAT.starts_with(text) { Reading::Unfinished } else { Reading::Unknown };
        };
        let (first, lines) = rest.split_once('\n').unwrap_or((rest, ""));
        let older = OLDER.iter().find_map(|(format, words)| Some((first.strip_prefix(format)?, *words)));
        let (head, manifest) = if let Some((head, words)) = older {
            (head, Self::plain(lines, words))
        } else if let Some(head) = first.strip_prefix(NOTED) {
            let hash = head.split_once(NOTES).map_or("", |(_, hash)| hash);
            (head, Self::noted(lines, Digest::read(hash) == Some(Digest::of([lines]))))
        } else if OLDER.iter().map(|(format, _)| *format).chain([NOTED]).any(|format| format.starts_with(first)) {
            return Reading::Unfinished;
        } else {
            let format = first.split_once(',').and_then(|(format, _)| format.parse::<u32>().ok());
            return if format.is_some_and(|format| format > NEWEST) { Reading::Newer } else { Reading::Unknown };
        };
        let count = head.split_once(NOTES).map_or(head, |(count, _)| count);
        match manifest {
            Some(manifest) if rest.ends_with('\n') && count.parse() == Ok(manifest.files.len()) => {
                Reading::Finished(manifest)
            }
            _ => Reading::Unfinished,
        }
    }

    /// The files of lines with so many words before each path; nothing where a line is none.
    fn plain(lines: &str, words: usize) -> Option<Self> {
        let path = |line: &str| Some((line.splitn(words + 1, ' ').nth(words)?.into(), None));
        Some(Self { files: lines.split_terminator('\n').map(path).collect::<Option<_>>()? })
    }

    /// The files of lines with notes, which count only where nobody changed the list; nothing where a line is none.
    fn noted(lines: &str, unchanged: bool) -> Option<Self> {
        let file = |line: &str| {
            let mut parts = line.splitn(4, ' ');
            let (bytes, sum, from, path) = (parts.next()?, parts.next()?, parts.next()?, parts.next()?);
            let known = Digest::read(bytes).zip(Checksum::read(sum)).filter(|_| unchanged);
            let note = known.map(|(bytes, sum)| Note { bytes, sum, from: Digest::read(from) });
            Some((path.into(), note))
        };
        let files: Option<Vec<_>> = lines.par_split_terminator('\n').map(file).collect();
        Some(Self { files: files?.into_iter().collect() })
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
        kind.is_file() && (path == MANIFEST || self.files.contains_key(&*path))
    }
}

/// The first line of a list of so many files, with the hash of all [`lines`] that follow.
pub(super) fn first_line(count: usize, lines: Digest) -> String {
    format!("{FORMAT}{NOTED}{count}{NOTES}{lines}\n")
}

/// The lines of files, which come in the order of their paths, many at a time.
pub(super) fn lines<'a>(files: impl IntoIterator<Item = (&'a str, Option<Note>)>) -> impl Iterator<Item = String> {
    let mut files = files.into_iter().peekable();
    std::iter::from_fn(move || {
        files.peek()?;
        let mut piece = String::with_capacity(PIECE + PIECE / 16);
        while let Some((path, note)) = files.next_if(|_| piece.len() < PIECE) {
            let from = note.and_then(|note| note.from).map_or_else(|| NONE.to_owned(), |from| from.to_string());
            // Nothing stops a text from being written to.
            let _ = match note {
                Some(Note { bytes, sum, .. }) => writeln!(piece, "{bytes} {sum} {from} {path}"),
                None => writeln!(piece, "{NONE} {NONE} {NONE} {path}"),
            };
        }
        Some(piece)
    })
}

/// A path below the folder as the list has it: with slashes on every system.
pub(super) fn listed(below: &Path) -> Option<Cow<'_, str>> {
    if MAIN_SEPARATOR == '/' {
        return below.to_str().map(Cow::Borrowed);
    }
    below.iter().map(|part| part.to_str()).collect::<Option<Vec<_>>>().map(|parts| Cow::Owned(parts.join("/")))
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
        (path.into(), Some(Note { from: from.map(hash), ..Note::of(b"hash", None) }))
    }

    #[test]
    fn the_list_of_an_older_program_has_no_notes() {
        for text in [
            "maulstick published this, format 1, files: 2\na/é.html\nb b.html\n",
            "maulstick published this, format 2, files: 2, notes: 1f\n2a - a/é.html\n- 3c b b.html\n",
        ] {
            assert_eq!(Manifest::read(text), Reading::Finished(manifest(&["a/é.html", "b b.html"])), "{text}");
            for end in 0..text.len() {
                let cut = text.get(..end).unwrap_or_default();
                assert_eq!(Manifest::read(cut), Reading::Unfinished, "{cut:?}");
            }
        }
    }

    #[test]
    fn the_notes_of_a_list_that_somebody_changed_count_for_nothing() {
        let some = Manifest::new([noted("a.html", Some("from")), noted("b.html", Some("from"))]);
        let text = some.text();
        let [bytes, from] = ["hash", "from"].map(|text| hash(text).to_string());
        let [sum, other] = ["hash", "from"].map(|text| Checksum::of(text.as_bytes()).to_string());
        let line = format!("{bytes} {sum} {from} a");
        for (old, new) in [
            (&*line, &*format!("{bytes} {sum} {bytes} a")),
            (&line, &format!("{from} {sum} {from} a")),
            (&line, &format!("{bytes} {other} {from} a")),
            ("notes: ", "notes: 0"),
        ] {
            let read = Manifest::read(&text.replacen(old, new, 1));
            assert_eq!(read, Reading::Finished(manifest(&["a.html", "b.html"])), "{old} → {new}");
        }
        assert_eq!(Manifest::read(&text.replacen(&line, &format!("{bytes} {sum} a"), 1)), Reading::Unfinished);
    }

    #[test]
    fn a_list_reads_back_and_does_not_depend_on_the_order_of_writing() {
        let some = Manifest::new([noted("b.html", Some("from")), ("a/é x.html".into(), None), noted("c", None)]);
        let [bytes, from] = ["hash", "from"].map(|text| hash(text).to_string());
        let sum = Checksum::of(b"hash");
        let lines = format!("- - - a/é x.html\n{bytes} {sum} {from} b.html\n{bytes} {sum} - c\n");
        let first = format!("maulstick published this, format 3, files: 3, notes: {}\n", hash(&lines));
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
        for text in ["hello\n", "maulstick published this, format 0, files: 0\n", "\n"] {
            assert_eq!(Manifest::read(text), Reading::Unknown, "{text:?}");
        }
    }

    #[test]
    fn the_list_of_a_newer_program_is_known_for_one() {
        assert!(NOTED.starts_with(&format!("{NEWEST},")));
        let text = format!("{FORMAT}{}, boxes: 0\n", NEWEST + 1);
        assert_eq!(Manifest::read(&text), Reading::Newer);
    }

    #[test]
    fn line_ends_of_another_system_change_nothing() {
        let some = Manifest::new([noted("b.html", Some("from")), ("a/é x.html".into(), None)]);
        let text = some.text().replace('\n', "\r\n");
        for end in 0..text.len() {
            assert!(text.get(..end).is_none_or(|cut| Manifest::read(cut) == Reading::Unfinished), "{end}");
        }
        assert_eq!(Manifest::read(&text), Reading::Finished(some));
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
                manifest.covers(&entry, &below).then(|| listed(&below).unwrap().into_owned())
            })
            .collect();
        assert_eq!(covered, [".maulstick", "a", "a/b", "a/b/c"]);
    }
}
