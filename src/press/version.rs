//! The version of a site, and what a browser needs to keep a scheme for a place without network.
//!
//! [`Noted`] is before the folder in the making and notes the SHA-256 of every file that is written. From all of
//! them together comes the version: the same files have the same version, and one changed byte gives another. It
//! is in the first lines of `worker.js`, so that a browser notices a new site by that one small file. For each scheme
//! `data/kept/<slug>.json` lists its files with their hashes: the worker takes over nothing that is not, byte for
//! byte, of its own version, even while a host is half way through replacing a site.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::sync::{Mutex, PoisonError};

use rayon::prelude::*;
use serde::Serialize;

use super::link;
use crate::door::{Checksum, Digest, Note, Staging};

/// Files outside the folder of a scheme that every kept scheme needs.
const COMMON: [&str; 3] = ["device.html", "data/words.js", "manifest.webmanifest"];

/// Files of the theme that no kept page asks for.
const NOT_KEPT: [&str; 1] = ["theme/script/vendor/"];

/// A folder in the making that notes what is written to it. It must end in [`Noted::finish`] or [`Noted::list`], or the next
/// run knows nothing of its files.
pub(super) struct Noted<'a> {
    staging: &'a dyn Staging,
    files: Mutex<Files>,
}

/// What is noted of files, by their paths.
type Notes = BTreeMap<Box<str>, Note>;

/// What is known about the files that were written.
#[derive(Default)]
struct Files {
    notes: Notes,
    /// The files of the site that pages of schemes show, beside those that every scheme needs: pictures, mostly.
    shows: BTreeMap<Box<str>, BTreeSet<String>>,
}

/// The list of a scheme, as its file has it.
#[derive(Serialize)]
struct Kept<'a> {
    files: BTreeMap<&'a str, Digest>,
    version: &'a str,
}

impl<'a> Noted<'a> {
    /// Notes what is written to `staging`.
    pub(super) fn new(staging: &'a dyn Staging) -> Self {
        Self { staging, files: Mutex::default() }
    }

    /// Takes over the file that the last run made from the same, if it still has the bytes that it had then.
    ///
    /// # Errors
    /// When it can't be brought over.
    pub(super) fn keep(&self, path: &str, from: Digest) -> io::Result<bool> {
        let Some(note) = self.staging.noted(path).filter(|note| note.from == Some(from)) else {
            return Ok(false);
        };
        let mut shows = BTreeSet::new();
        let kept = self.staging.keep(path, &mut |bytes| {
            let is_as_noted = Checksum::of(bytes) == note.sum;
            if is_as_noted {
                shows = shown(path, bytes);
            }
            is_as_noted
        })?;
        if kept {
            self.remember(path, note, shows);
        }
        Ok(kept)
    }

    /// Writes a file that was made from what has the hash `from`.
    ///
    /// # Errors
    /// When it can't be written.
    pub(super) fn write(&self, path: &str, bytes: &[u8], from: Option<Digest>) -> io::Result<()> {
        self.remember(path, Note::of(bytes, from), shown(path, bytes));
        self.staging.write(path, bytes)
    }

    /// The bytes of a file that was written before.
    ///
    /// # Errors
    /// When there is none, or it can't be read.
    pub(super) fn written(&self, path: &str) -> io::Result<Vec<u8>> {
        self.staging.written(path)
    }

    fn remember(&self, path: &str, note: Note, shows: BTreeSet<String>) {
        let mut files = self.files.lock().unwrap_or_else(PoisonError::into_inner);
        files.notes.insert(path.into(), note);
        if !shows.is_empty() {
            files.shows.insert(path.into(), shows);
        }
    }

    /// Writes the worker with the version of all that was written before, and the list of each scheme. Returns how
    /// many files that were.
    ///
    /// # Errors
    /// When one can't be written.
    pub(super) fn finish(self) -> io::Result<usize> {
        let files = self.files.into_inner().unwrap_or_else(PoisonError::into_inner);
        let version = version(&files.notes);
        let schemes: Vec<&str> = files.notes.keys().filter_map(|path| scheme(path)).collect();
        let common = common(&files.notes);
        schemes.par_iter().try_for_each(|slug| {
            let list = serde_json::to_vec(&Kept { files: kept(slug, &files, &common), version: &version })?;
            self.staging.write(&format!("data/kept/{slug}.json"), &list)
        })?;
        self.staging.write("worker.js", worker(&version).as_bytes())?;
        let more = schemes.len() + 1;
        self.staging.note(files.notes);
        Ok(more)
    }

    /// Has the files on the list of the folder, and nothing else.
    pub(super) fn list(self) {
        self.staging.note(self.files.into_inner().unwrap_or_else(PoisonError::into_inner).notes);
    }
}

/// The slug of the scheme whose page a path is.
fn scheme(path: &str) -> Option<&str> {
    path.strip_prefix("schemes/")?.strip_suffix(".html").filter(|slug| !slug.contains('/'))
}

fn is_of_scheme(path: &str) -> bool {
    path.strip_prefix("schemes/").and_then(|inside| inside.strip_suffix(".html")).is_some()
}

/// One hash over the paths and hashes of all files; sixteen digits are more than enough to tell two sites apart.
fn version(notes: &Notes) -> String {
    let all = notes.iter().flat_map(|(path, note)| [path.as_bytes(), &[0], note.bytes.bytes()]);
    Digest::of(all).to_string()[..16].to_owned()
}

/// The worker of this version. The work itself is done by the theme's script.
fn worker(version: &str) -> String {
    format!("self.maulstickVersion = \"{version}\";\nimportScripts(\"theme/script/worker.js\");\n")
}

/// The files that every scheme needs, with their hashes.
fn common(notes: &Notes) -> BTreeMap<&str, Digest> {
    let needed = notes.iter().filter(|(path, _)| is_common(path));
    needed.map(|(path, note)| (&**path, note.bytes)).collect()
}

fn is_common(path: &str) -> bool {
    let is_of_theme = path.starts_with("theme/") && !NOT_KEPT.iter().any(|start| path.starts_with(start));
    is_of_theme || COMMON.contains(&path)
}

/// The files of a scheme and those that every scheme needs, with their hashes.
fn kept<'a>(slug: &str, files: &'a Files, common: &BTreeMap<&'a str, Digest>) -> BTreeMap<&'a str, Digest> {
    let Files { notes, shows } = files;
    let folder = format!("schemes/{slug}/");
    let page = notes.get_key_value(format!("schemes/{slug}.html").as_str());
    let inside = notes.range(Box::from(folder.as_str())..).take_while(|(path, _)| path.starts_with(&folder));
    let mut kept = common.clone();
    for (path, note) in page.into_iter().chain(inside) {
        let shown = shows.get(path).into_iter().flatten().filter_map(|path| notes.get_key_value(path.as_str()));
        kept.extend(shown.chain([(path, note)]).map(|(path, note)| (&**path, note.bytes)));
    }
    kept
}

/// The files of the site that a page of a scheme shows, beside those that every scheme needs: everything in `src` and
/// `srcset`. Of other files nobody asks that.
fn shown(page: &str, html: &[u8]) -> BTreeSet<String> {
    if !is_of_scheme(page) {
        return BTreeSet::new();
    }
    // Nearly all that a page asks for is of the theme, which every scheme needs.
    let top = "../".repeat(page.matches('/').count());
    let is_plain = |path: &str| is_common(path) && !["%", "//", "/."].iter().any(|odd| path.contains(odd));
    let is_own = |link: &&str| !link.strip_prefix(top.as_str()).is_some_and(is_plain);
    let mut shown = BTreeSet::new();
    for at in memchr::memmem::find_iter(html, " src") {
        let rest = html.get(at..).unwrap_or_default();
        if let Some(rest) = rest.strip_prefix(b" src=\"") {
            shown.extend(Some(&*value(rest)).filter(is_own).and_then(|link| link::file(page, link)));
        } else if let Some(rest) = rest.strip_prefix(b" srcset=\"") {
            let set = value(rest);
            let each = set.split(',').filter_map(|one| one.split_whitespace().next());
            shown.extend(each.filter(is_own).filter_map(|link| link::file(page, link)));
        }
    }
    shown.retain(|path| !is_common(path));
    shown
}

/// The value of an attribute, as text that begins behind its first quotation mark.
fn value(rest: &[u8]) -> Cow<'_, str> {
    rest.split(|byte| *byte == b'"').next().map(String::from_utf8_lossy).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A folder in the making that only remembers.
    #[derive(Default)]
    struct Shelf(Mutex<BTreeMap<String, Vec<u8>>>);

    impl Staging for Shelf {
        fn write(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
            self.0.lock().unwrap().insert(path.to_owned(), bytes.to_vec());
            Ok(())
        }

        fn written(&self, path: &str) -> io::Result<Vec<u8>> {
            self.0.lock().unwrap().get(path).cloned().ok_or(io::ErrorKind::NotFound.into())
        }

        fn standing(&self, _: &str, _: u64) -> io::Result<Vec<u8>> {
            Err(io::ErrorKind::NotFound.into())
        }

        fn note(&self, _: Notes) {}

        fn noted(&self, _: &str) -> Option<Note> {
            None
        }

        fn keep(&self, _: &str, _: &mut dyn FnMut(&[u8]) -> bool) -> io::Result<bool> {
            Ok(false)
        }

        fn swap(self: Box<Self>) -> io::Result<()> {
            Ok(())
        }
    }

    fn published(files: &[(&str, &str)]) -> BTreeMap<String, String> {
        let shelf = Shelf::default();
        let noted = Noted::new(&shelf);
        for (path, text) in files {
            noted.write(path, text.as_bytes(), None).unwrap();
        }
        noted.finish().unwrap();
        let written = shelf.0.into_inner().unwrap();
        written.into_iter().map(|(path, bytes)| (path, String::from_utf8(bytes).unwrap())).collect()
    }

    const SITE: [(&str, &str); 7] = [
        ("schemes/boat.html", "<img src=\"../pages/a%20b.jpg\" srcset=\"boat/s.jpg 400w, boat/l.jpg 800w\">"),
        ("schemes/boat/10-wash.html", "<img src=\"https://elsewhere.example/x.jpg\">"),
        ("schemes/boat-two.html", ""),
        ("theme/style/chart.css", "a{}"),
        ("theme/script/vendor/large.js", ""),
        ("pages/a b.jpg", "picture"),
        ("paints/bog-iron.html", ""),
    ];

    #[test]
    fn a_scheme_is_kept_with_all_that_its_pages_show() {
        let list: serde_json::Value = serde_json::from_str(&published(&SITE)["data/kept/boat.json"]).unwrap();
        let paths: Vec<&String> = list["files"].as_object().unwrap().keys().collect();
        let wanted = ["pages/a b.jpg", "schemes/boat.html", "schemes/boat/10-wash.html", "theme/style/chart.css"];
        assert_eq!(paths, wanted);
        // SHA-256 of "a{}", by `printf 'a{}' | sha256sum`.
        let hash = "5f546eb4606b5c2b7d2a449a5cc2bbb477ed5a246c7051ce871b12f2dbfc8419";
        assert_eq!(list["files"]["theme/style/chart.css"], hash);
    }

    #[test]
    fn pictures_count_by_the_path_that_a_browser_asks_for() {
        let html =
            b"<img src=\"../pages/a%20b.jpg?1#x\"><img src=\"boat/c:d.jpg\"><img src=\"/e.jpg\"><img src=\"data:,\">";
        let paths: Vec<String> = shown("schemes/boat.html", html).into_iter().collect();
        assert_eq!(paths, ["pages/a b.jpg", "schemes/boat/c:d.jpg"]);
    }

    #[test]
    fn one_changed_byte_is_another_version() {
        let version = |files: &[(&str, &str)]| published(files)["worker.js"].clone();
        let mut changed = SITE;
        assert_eq!(version(&SITE), version(&changed));
        changed[6].1 = "x";
        assert_ne!(version(&SITE), version(&changed));
        let mut order = SITE;
        order.reverse();
        assert_eq!(version(&SITE), version(&order));
    }
}
