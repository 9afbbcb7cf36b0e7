//! A guide as it would be if some of its files had other names: to try a mend before a file is touched.

use std::collections::BTreeMap;
use std::io;
use std::path::Path;

use super::{Door, Listing, Purpose, Staging};

/// Another door, behind which some files have other names. It only reads.
pub struct Renamed<'a> {
    door: &'a dyn Door,
    /// The old name of each file that has a new one, and the other way round.
    old: BTreeMap<String, String>,
    new: BTreeMap<String, String>,
}

impl<'a> Renamed<'a> {
    /// The files that `door` shows, with new names for some: pairs of an old path and a new one, all at once.
    pub fn of(door: &'a dyn Door, names: impl IntoIterator<Item = (String, String)>) -> Self {
        let new: BTreeMap<String, String> = names.into_iter().collect();
        Self { door, old: new.iter().map(|(old, new)| (new.clone(), old.clone())).collect(), new }
    }
}

fn only_reads<T>() -> io::Result<T> {
    Err(io::ErrorKind::ReadOnlyFilesystem.into())
}

impl Door for Renamed<'_> {
    fn list(&self, folder: &str) -> io::Result<Listing> {
        let mut listing = self.door.list(folder)?;
        for file in &mut listing.files {
            if let Some(new) = self.new.get(&file.path) {
                file.path.clone_from(new);
            }
        }
        listing.files.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(listing)
    }

    fn read(&self, path: &str, limit: u64) -> io::Result<Vec<u8>> {
        self.door.read(self.old.get(path).map_or(path, String::as_str), limit)
    }

    fn rename(&self, _: &str, _: &str) -> io::Result<()> {
        only_reads()
    }

    fn save(&self, _: &Path, _: &[u8], _: fn(&[u8]) -> bool) -> io::Result<()> {
        only_reads()
    }

    fn stage(&self, _: &Path, _: Purpose) -> io::Result<Box<dyn Staging>> {
        only_reads()
    }
}
