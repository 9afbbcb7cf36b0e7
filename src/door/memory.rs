//! A door onto memory: guides for tests and for unsaved text, sites that can be looked at, and disks that fail.

use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::staging::{MANIFEST, Manifest, Reading};
use super::{Door, Entry, Listing, Note, Purpose, Staging};

/// Every folder that was written, by its path; each a map from path to bytes.
type Folders = Arc<Mutex<BTreeMap<PathBuf, BTreeMap<String, Vec<u8>>>>>;

/// A guide's folder and the folders written for it, all in memory.
#[derive(Debug, Clone, Default)]
pub struct Memory {
    files: Arc<Mutex<BTreeMap<String, Vec<u8>>>>,
    written: Folders,
    room: Option<usize>,
}

impl Memory {
    /// The same guide with one more file.
    #[must_use]
    pub fn with(self, path: &str, bytes: impl AsRef<[u8]>) -> Self {
        self.files().insert(path.to_owned(), bytes.as_ref().to_vec());
        self
    }

    /// Takes a file out of the guide, as its author may at any time.
    pub fn remove(&self, path: &str) {
        self.files().remove(path);
    }

    fn files(&self) -> MutexGuard<'_, BTreeMap<String, Vec<u8>>> {
        self.files.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The same guide on a disk that takes only so many bytes in one staging place.
    #[must_use]
    pub fn with_room(mut self, bytes: usize) -> Self {
        self.room = Some(bytes);
        self
    }

    /// Gives a file of a folder that was written other bytes, as somebody else may at any time.
    pub fn damage(&self, folder: impl AsRef<Path>, path: &str, bytes: impl AsRef<[u8]>) {
        let mut written = self.written.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(files) = written.get_mut(folder.as_ref()) {
            files.insert(path.to_owned(), bytes.as_ref().to_vec());
        }
    }

    /// What is in a folder that was written, if it was.
    pub fn written(&self, folder: impl AsRef<Path>) -> Option<BTreeMap<String, Vec<u8>>> {
        self.written.lock().unwrap_or_else(PoisonError::into_inner).get(folder.as_ref()).cloned()
    }
}

impl Door for Memory {
    fn list(&self, folder: &str) -> io::Result<Listing> {
        let prefix = format!("{folder}/");
        let files: Vec<Entry> = self
            .files()
            .iter()
            .filter(|(path, _)| path.starts_with(&prefix))
            .map(|(path, bytes)| Entry { path: path.clone(), size: bytes.len() as u64 })
            .collect();
        if files.is_empty() {
            return Err(io::Error::new(io::ErrorKind::NotFound, format!("there is no folder '{folder}'")));
        }
        Ok(Listing { files, ..Listing::default() })
    }

    fn read(&self, path: &str, limit: u64) -> io::Result<Vec<u8>> {
        let files = self.files();
        let bytes = files.get(path).ok_or(io::ErrorKind::NotFound)?;
        if bytes.len() as u64 > limit {
            return Err(io::ErrorKind::FileTooLarge.into());
        }
        Ok(bytes.clone())
    }

    fn rename(&self, from: &str, to: &str) -> io::Result<()> {
        let mut files = self.files();
        if files.contains_key(to) {
            return Err(io::Error::new(io::ErrorKind::AlreadyExists, format!("'{to}' is there already")));
        }
        let bytes = files.remove(from).ok_or(io::ErrorKind::NotFound)?;
        files.insert(to.to_owned(), bytes);
        Ok(())
    }

    fn save(&self, target: &Path, bytes: &[u8], ours: fn(&[u8]) -> bool) -> io::Result<()> {
        let (Some(folder), Some(name)) = (target.parent(), target.file_name()) else {
            return Err(io::ErrorKind::InvalidInput.into());
        };
        let mut written = self.written.lock().unwrap_or_else(PoisonError::into_inner);
        let folder = written.entry(folder.to_owned()).or_default();
        let name = name.to_string_lossy().into_owned();
        if folder.get(&name).is_some_and(|there| !ours(there)) {
            return Err(io::ErrorKind::AlreadyExists.into());
        }
        folder.insert(name, bytes.to_vec());
        Ok(())
    }

    fn stage(&self, target: &Path, purpose: Purpose) -> io::Result<Box<dyn Staging>> {
        let list = |folders: &BTreeMap<PathBuf, BTreeMap<String, Vec<u8>>>| match Manifest::read(
            std::str::from_utf8(folders.get(target)?.get(MANIFEST)?).ok()?,
        ) {
            Reading::Finished(list) => Some(list),
            Reading::Unfinished | Reading::Newer | Reading::Unknown => None,
        };
        Ok(Box::new(MemoryStaging {
            target: target.to_owned(),
            listed: list(&self.written.lock().unwrap_or_else(PoisonError::into_inner)).unwrap_or_default(),
            purpose,
            files: Mutex::default(),
            notes: Mutex::default(),
            written: Arc::clone(&self.written),
            room: self.room,
        }))
    }
}

struct MemoryStaging {
    target: PathBuf,
    /// What the list of the folder that stands there says.
    listed: Manifest,
    purpose: Purpose,
    files: Mutex<BTreeMap<String, Vec<u8>>>,
    notes: Mutex<BTreeMap<Box<str>, Note>>,
    written: Folders,
    room: Option<usize>,
}

impl Staging for MemoryStaging {
    fn write(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
        let mut files = self.files.lock().unwrap_or_else(PoisonError::into_inner);
        let used: usize = files.values().map(Vec::len).sum();
        if self.room.is_some_and(|room| used + bytes.len() > room) {
            return Err(io::ErrorKind::StorageFull.into());
        }
        match files.insert(path.to_owned(), bytes.to_vec()) {
            Some(_) => Err(io::Error::new(io::ErrorKind::AlreadyExists, format!("'{path}' was written twice"))),
            None => Ok(()),
        }
    }

    fn written(&self, path: &str) -> io::Result<Vec<u8>> {
        let files = self.files.lock().unwrap_or_else(PoisonError::into_inner);
        files.get(path).cloned().ok_or(io::ErrorKind::NotFound.into())
    }

    fn standing(&self, path: &str, limit: u64) -> io::Result<Vec<u8>> {
        let written = self.written.lock().unwrap_or_else(PoisonError::into_inner);
        let bytes = written.get(&self.target).and_then(|files| files.get(path)).ok_or(io::ErrorKind::NotFound)?;
        if bytes.len() as u64 > limit { Err(io::ErrorKind::FileTooLarge.into()) } else { Ok(bytes.clone()) }
    }

    fn note(&self, mut notes: BTreeMap<Box<str>, Note>) {
        self.notes.lock().unwrap_or_else(PoisonError::into_inner).append(&mut notes);
    }

    fn noted(&self, path: &str) -> Option<Note> {
        self.listed.note(path)
    }

    fn keep(&self, path: &str, wanted: &mut dyn FnMut(&[u8]) -> bool) -> io::Result<bool> {
        let Some(bytes) = self.standing(path, u64::MAX).ok().filter(|bytes| wanted(bytes)) else { return Ok(false) };
        self.write(path, &bytes)?;
        Ok(true)
    }

    fn swap(self: Box<Self>) -> io::Result<()> {
        let mut files = self.files.into_inner().unwrap_or_else(PoisonError::into_inner);
        if self.purpose == Purpose::Site {
            let mut notes = self.notes.into_inner().unwrap_or_else(PoisonError::into_inner);
            let list = Manifest::new(files.keys().map(|path| (path.as_str().into(), notes.remove(path.as_str()))));
            files.insert(MANIFEST.to_owned(), list.text().into_bytes());
        }
        self.written.lock().unwrap_or_else(PoisonError::into_inner).insert(self.target, files);
        Ok(())
    }
}
