//! The version of a site, and what a browser needs to keep a scheme for a place without network.
//!
//! [`Noted`] is before the folder in the making and notes the SHA-256 of every file that is written. From all of
//! them together comes the version: the same files have the same version, and one changed byte gives another. It
//! is in the first lines of `worker.js`, so that a browser notices a new site by that one small file. For each scheme
//! `data/kept/<slug>.json` lists its files with their hashes: the worker takes over nothing that is not, byte for
//! byte, of its own version, even while a host is half way through replacing a site.

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::sync::{Mutex, PoisonError};

use percent_encoding::percent_decode_str;
use rayon::prelude::*;
use serde_json::json;

use crate::door::{Digest, Note, Staging};

/// Files outside the folder of a scheme that every kept scheme needs.
const COMMON: [&str; 3] = ["device.html", "data/words.js", "manifest.webmanifest"];

/// Files of the theme that no kept page asks for.
const NOT_KEPT: [&str; 1] = ["theme/script/vendor/"];

/// A folder in the making that notes what is written to it. It must end in [`Noted::finish`] or [`Noted::list`], or the next
/// run knows nothing of its files.
pub(super) struct Noted<'a> {
    staging: &'a dyn Staging,
    files: Mutex<BTreeMap<Box<str>, File>>,
}

/// What is known about a file that was written.
struct File {
    note: Note,
    /// The files of the site that it shows, by their paths, beside those that every scheme needs: pictures, mostly.
    shows: BTreeSet<String>,
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
        let kept = self.staging.keep(path, &|bytes| Digest::of([bytes]) == note.bytes)?;
        if let Some(bytes) = &kept {
            self.remember(path, bytes, note);
        }
        Ok(kept.is_some())
    }

    /// Writes a file that was made from what has the hash `from`.
    ///
    /// # Errors
    /// When it can't be written.
    pub(super) fn write(&self, path: &str, bytes: &[u8], from: Option<Digest>) -> io::Result<()> {
        self.remember(path, bytes, Note { bytes: Digest::of([bytes]), from });
        self.staging.write(path, bytes)
    }

    /// The bytes of a file that was written before.
    ///
    /// # Errors
    /// When there is none, or it can't be read.
    pub(super) fn written(&self, path: &str) -> io::Result<Vec<u8>> {
        self.staging.written(path)
    }

    fn remember(&self, path: &str, bytes: &[u8], note: Note) {
        let shows = if is_of_scheme(path) { shown(path, bytes) } else { BTreeSet::new() };
        let file = File { note, shows };
        self.files.lock().unwrap_or_else(PoisonError::into_inner).insert(path.into(), file);
    }

    /// Writes the worker with the version of all that was written before, and the list of each scheme. Returns how
    /// many files that were.
    ///
    /// # Errors
    /// When one can't be written.
    pub(super) fn finish(self) -> io::Result<usize> {
        let files = self.files.into_inner().unwrap_or_else(PoisonError::into_inner);
        let version = version(&files);
        let schemes: Vec<&str> = files.keys().filter_map(|path| scheme(path)).collect();
        let common = common(&files);
        schemes.par_iter().try_for_each(|slug| {
            let list = json!({ "version": version, "files": kept(slug, &files, &common) }).to_string();
            self.staging.write(&format!("data/kept/{slug}.json"), list.as_bytes())
        })?;
        self.staging.write("worker.js", worker(&version).as_bytes())?;
        let more = schemes.len() + 1;
        list(self.staging, files);
        Ok(more)
    }

    /// Has the files on the list of the folder, and nothing else.
    pub(super) fn list(self) {
        list(self.staging, self.files.into_inner().unwrap_or_else(PoisonError::into_inner));
    }
}

/// Has files on the list of a folder; until then they are noted here alone, for a large site has very many.
fn list(staging: &dyn Staging, files: BTreeMap<Box<str>, File>) {
    for (path, file) in files {
        staging.note(path, file.note);
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
fn version(files: &BTreeMap<Box<str>, File>) -> String {
    let all = files.iter().flat_map(|(path, file)| [path.as_bytes(), &[0], file.note.bytes.bytes()]);
    Digest::of(all).to_string()[..16].to_owned()
}

/// The worker of this version. The work itself is done by the theme's script.
fn worker(version: &str) -> String {
    format!("self.maulstickVersion = \"{version}\";\nimportScripts(\"theme/script/worker.js\");\n")
}

/// The files that every scheme needs, with their hashes.
fn common(files: &BTreeMap<Box<str>, File>) -> BTreeMap<&str, Digest> {
    let needed = files.iter().filter(|(path, _)| is_common(path));
    needed.map(|(path, file)| (&**path, file.note.bytes)).collect()
}

fn is_common(path: &str) -> bool {
    let is_of_theme = path.starts_with("theme/") && !NOT_KEPT.iter().any(|start| path.starts_with(start));
    is_of_theme || COMMON.contains(&path)
}

/// The files of a scheme and those that every scheme needs, with their hashes.
fn kept<'a>(
    slug: &str,
    files: &'a BTreeMap<Box<str>, File>,
    common: &BTreeMap<&'a str, Digest>,
) -> BTreeMap<&'a str, Digest> {
    let folder = format!("schemes/{slug}/");
    let page = files.get_key_value(format!("schemes/{slug}.html").as_str());
    let inside = files.range(Box::from(folder.as_str())..).take_while(|(path, _)| path.starts_with(&folder));
    let mut kept = common.clone();
    for (path, file) in page.into_iter().chain(inside) {
        let shown = file.shows.iter().filter_map(|path| files.get_key_value(path.as_str()));
        kept.extend(shown.chain([(path, file)]).map(|(path, file)| (&**path, file.note.bytes)));
    }
    kept
}

/// The files of the site that a page shows, beside those that every scheme needs: everything in `src` and `srcset`.
fn shown(page: &str, html: &[u8]) -> BTreeSet<String> {
    let value = |rest: &[u8]| {
        rest.split(|byte| *byte == b'"').next().map(String::from_utf8_lossy).unwrap_or_default().into_owned()
    };
    let mut shown = BTreeSet::new();
    for at in memchr::memmem::find_iter(html, " src") {
        let rest = html.get(at..).unwrap_or_default();
        if let Some(rest) = rest.strip_prefix(b" src=\"") {
            shown.extend(resolved(page, &value(rest)));
        } else if let Some(rest) = rest.strip_prefix(b" srcset=\"") {
            let set = value(rest);
            let each = set.split(',').filter_map(|one| one.split_whitespace().next());
            shown.extend(each.filter_map(|link| resolved(page, link)));
        }
    }
    shown.retain(|path| !is_common(path));
    shown
}

/// The path in the site that a link on a page leads to, if it is one.
fn resolved(page: &str, link: &str) -> Option<String> {
    if link.contains(':') || link.starts_with('/') {
        return None;
    }
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in link.split('/') {
        match part {
            ".." => _ = parts.pop()?,
            "." => {}
            part => parts.push(part),
        }
    }
    percent_decode_str(&parts.join("/")).decode_utf8().ok().map(std::borrow::Cow::into_owned)
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

        fn note(&self, _: Box<str>, _: Note) {}

        fn noted(&self, _: &str) -> Option<Note> {
            None
        }

        fn keep(&self, _: &str, _: &dyn Fn(&[u8]) -> bool) -> io::Result<Option<Vec<u8>>> {
            Ok(None)
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
