//! A door onto a guide as it was at one moment: what the live view reads, while authors go on writing.
//!
//! A run must not see half of a change, and must not read thousands of files to find the one that changed. So the
//! texts are held in memory, each under a stamp that is new whenever its bytes are, and [`Snapshot::refresh`] takes in
//! what [the watch](super::Watch) told.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::Path;
use std::sync::Arc;

use super::system::Trace;
use super::{Disk, Door, Entry, Listing, Purpose, Staging, system};

/// The folders of a guide that hold what it is made from.
pub(super) const FOLDERS: [&str; 2] = ["content", "themes"];

/// Files up to this size are held in memory; larger ones, which are pictures, are read when they are asked for.
const LARGEST_HELD: u64 = 1_000_000;

/// What is known to have changed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct News {
    /// These files, by their paths from the guide's folder.
    pub files: BTreeSet<String>,
    /// Whether anything else may have changed too.
    pub anything: bool,
}

impl News {
    /// Anything may have changed.
    pub fn anything() -> Self {
        Self { files: BTreeSet::new(), anything: true }
    }
}

/// A guide's folder as it was when it was last looked at.
#[derive(Debug)]
pub struct Snapshot {
    disk: Disk,
    files: BTreeMap<String, Held>,
    refused: Vec<(String, String)>,
    twins: BTreeMap<String, String>,
    stamps: u64,
}

/// One file.
#[derive(Debug, Clone)]
struct Held {
    size: u64,
    trace: Trace,
    stamp: u64,
    bytes: Option<Arc<[u8]>>,
}

impl Snapshot {
    /// Looks at the guide in a folder.
    ///
    /// # Errors
    /// When its content can't be listed.
    pub fn of(disk: Disk) -> io::Result<Self> {
        let mut snapshot =
            Self { disk, files: BTreeMap::new(), refused: Vec::new(), twins: BTreeMap::new(), stamps: 0 };
        snapshot.refresh(&News::anything())?;
        Ok(snapshot)
    }

    /// Takes in what changed, and tells whether anything did.
    ///
    /// # Errors
    /// When the content can't be listed.
    pub fn refresh(&mut self, news: &News) -> io::Result<bool> {
        let mut changed = false;
        let mut others = news.anything;
        for path in &news.files {
            match self.look(path) {
                Some(found) => changed |= found,
                None => others = true,
            }
        }
        if others {
            changed |= self.look_at_all()?;
        }
        Ok(changed)
    }

    /// Looks at a known file whatever its times say; whether it has other bytes now. `None`: it is new, or gone.
    fn look(&mut self, path: &str) -> Option<bool> {
        let trace = self.disk.trace(path).ok()?;
        let known = self.files.get(path)?;
        let bytes = self.held(path, trace).ok()?;
        // Bytes that are not held can't be compared; they are taken for changed.
        let same = known.bytes.is_some() && known.bytes == bytes;
        if !same {
            self.stamps += 1;
        }
        let stamp = if same { known.stamp } else { self.stamps };
        self.files.insert(path.to_owned(), Held { size: trace.size, trace, stamp, bytes });
        Some(!same)
    }

    /// The bytes to hold, if they are to be held.
    ///
    /// # Errors
    /// When the file is gone; one that can't be read for another reason is not held.
    fn held(&self, path: &str, trace: Trace) -> io::Result<Option<Arc<[u8]>>> {
        if trace.size > LARGEST_HELD {
            return Ok(None);
        }
        match self.disk.read(path, LARGEST_HELD) {
            Ok(bytes) => Ok(Some(bytes.into())),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Err(error),
            Err(_) => Ok(None),
        }
    }

    /// Lists everything, and looks at what is new or has other times.
    fn look_at_all(&mut self) -> io::Result<bool> {
        let mut listing = self.disk.list(FOLDERS[0])?;
        if let Ok(themes) = self.disk.list(FOLDERS[1]) {
            listing.files.extend(themes.files);
            listing.refused.extend(themes.refused);
            listing.twins.extend(themes.twins);
        }
        let mut before = std::mem::take(&mut self.files);
        let mut changed = listing.refused != self.refused;
        self.refused = listing.refused;
        self.twins = listing.twins;
        for Entry { path, size } in listing.files {
            let Ok(trace) = self.disk.trace(&path) else { continue };
            let known = before.remove(&path);
            if let Some(same) = known.as_ref().filter(|known| known.trace == trace) {
                self.files.insert(path, same.clone());
                continue;
            }
            let Ok(bytes) = self.held(&path, trace) else { continue };
            let same = known.filter(|known| known.bytes.is_some() && known.bytes == bytes);
            changed |= same.is_none();
            self.stamps += u64::from(same.is_none());
            let stamp = same.map_or(self.stamps, |same| same.stamp);
            self.files.insert(path, Held { size, trace, stamp, bytes });
        }
        Ok(changed || !before.is_empty())
    }
}

impl Door for Snapshot {
    fn list(&self, folder: &str) -> io::Result<Listing> {
        let prefix = format!("{folder}/");
        let below = self.files.range(prefix.clone()..).take_while(|(path, _)| path.starts_with(&prefix));
        let files: Vec<Entry> = below.map(|(path, held)| Entry { path: path.clone(), size: held.size }).collect();
        // What is refused itself, as a link is, has nothing in it that is known.
        let is_refused =
            |path: &str| path == folder || folder.strip_prefix(path).is_some_and(|rest| rest.starts_with('/'));
        let refused = self.refused.iter().filter(|(path, _)| path.starts_with(&prefix) || is_refused(path));
        let refused: Vec<(String, String)> = refused.cloned().collect();
        if files.is_empty() && folder != FOLDERS[0] && !refused.iter().any(|(path, _)| is_refused(path)) {
            return Err(io::Error::new(io::ErrorKind::NotFound, format!("there is no folder '{folder}'")));
        }
        Ok(Listing { files, refused, twins: self.twins.clone() })
    }

    fn read(&self, path: &str, limit: u64) -> io::Result<Vec<u8>> {
        match self.files.get(path) {
            Some(Held { bytes: Some(bytes), .. }) if bytes.len() as u64 <= limit => Ok(bytes.to_vec()),
            Some(Held { bytes: Some(_), .. }) => Err(io::ErrorKind::FileTooLarge.into()),
            Some(Held { bytes: None, .. }) => self.disk.read(path, limit),
            None => Err(io::ErrorKind::NotFound.into()),
        }
    }

    fn stamp(&self, path: &str) -> Option<u64> {
        self.files.get(path).map(|held| held.stamp)
    }

    fn rename(&self, from: &str, to: &str) -> io::Result<()> {
        self.disk.rename(from, to)
    }

    fn stage(&self, target: &Path, purpose: Purpose) -> io::Result<Box<dyn Staging>> {
        self.disk.stage(target, purpose)
    }

    fn save(&self, target: &Path, bytes: &[u8], ours: fn(&[u8]) -> bool) -> io::Result<()> {
        self.disk.save(target, bytes, ours)
    }
}

impl Disk {
    /// What the system notes about an ordinary file and changes with its bytes; an error where a link or something else
    /// has taken its place.
    fn trace(&self, path: &str) -> io::Result<Trace> {
        let full = self.folder().join(path);
        if !fs::symlink_metadata(&full)?.is_file() {
            return Err(io::ErrorKind::InvalidInput.into());
        }
        system::trace(&full)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn guide() -> (tempfile::TempDir, Snapshot) {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir_all(folder.path().join("content/schemes")).unwrap();
        fs::write(folder.path().join("content/guide.yaml"), "title: A\n").unwrap();
        fs::write(folder.path().join("content/schemes/a.md"), "a").unwrap();
        let snapshot = Snapshot::of(Disk::new(folder.path())).unwrap();
        (folder, snapshot)
    }

    fn files(paths: &[&str]) -> News {
        News { files: paths.iter().map(|path| (*path).to_owned()).collect(), anything: false }
    }

    #[test]
    fn the_guide_stands_still_until_it_is_looked_at_again() {
        let (folder, mut snapshot) = guide();
        let path = "content/schemes/a.md";
        let (before, other) = (snapshot.stamp(path), snapshot.stamp("content/guide.yaml"));
        fs::write(folder.path().join(path), "b").unwrap();
        assert_eq!(snapshot.read(path, 10).unwrap(), b"a");
        assert!(snapshot.refresh(&files(&[path])).unwrap());
        assert_eq!(snapshot.read(path, 10).unwrap(), b"b");
        assert_ne!(snapshot.stamp(path), before);
        assert_eq!(snapshot.stamp("content/guide.yaml"), other);
    }

    #[test]
    fn the_same_bytes_are_no_change() {
        let (folder, mut snapshot) = guide();
        let before = snapshot.stamp("content/guide.yaml");
        fs::write(folder.path().join("content/guide.yaml"), "title: A\n").unwrap();
        assert!(!snapshot.refresh(&files(&["content/guide.yaml"])).unwrap());
        assert!(!snapshot.refresh(&News::anything()).unwrap());
        assert_eq!(snapshot.stamp("content/guide.yaml"), before);
    }

    #[test]
    fn what_came_and_went_is_seen() {
        let (folder, mut snapshot) = guide();
        fs::rename(folder.path().join("content/schemes"), folder.path().join("content/pages")).unwrap();
        assert!(snapshot.refresh(&files(&["content/schemes/a.md"])).unwrap());
        assert_eq!(snapshot.read("content/schemes/a.md", 10).unwrap_err().kind(), io::ErrorKind::NotFound);
        assert_eq!(snapshot.read("content/pages/a.md", 10).unwrap(), b"a");
        fs::create_dir_all(folder.path().join("themes/own")).unwrap();
        fs::write(folder.path().join("themes/own/style.css"), "p {}").unwrap();
        assert!(snapshot.list("themes/own").is_err());
        assert!(snapshot.refresh(&files(&["themes/own/style.css"])).unwrap());
        assert_eq!(snapshot.list("themes/own").unwrap().files.len(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn what_is_refused_is_told_of_every_folder_in_it() {
        let (folder, mut snapshot) = guide();
        fs::create_dir(folder.path().join("outside")).unwrap();
        std::os::unix::fs::symlink("outside", folder.path().join("themes")).unwrap();
        fs::create_dir(folder.path().join("content/Schemes")).unwrap();
        fs::write(folder.path().join("content/Schemes/a.md"), "a").unwrap();
        assert!(snapshot.refresh(&News::anything()).unwrap());
        let themes = snapshot.list("themes/plain").unwrap();
        assert!(themes.files.is_empty() && themes.refused[0].0 == "themes", "{:?}", themes.refused);
        let content = snapshot.list("content").unwrap();
        assert_eq!(content.refused.len(), 1);
        assert_eq!(content.twins.get("content/Schemes").map(String::as_str), Some("content/schemes"));
    }

    #[test]
    fn without_content_there_is_nothing_to_look_at() {
        let (folder, mut snapshot) = guide();
        fs::remove_dir_all(folder.path().join("content")).unwrap();
        assert!(snapshot.refresh(&News::anything()).is_err());
        assert_eq!(snapshot.read("content/schemes/a.md", 10).unwrap(), b"a", "the last look stands");
    }
}
