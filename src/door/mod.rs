//! The one door to the outside: whatever is read from a guide or written for a reader passes here.
//!
//! The disk implements it for the commands, memory for tests, and a snapshot for the live view. Nothing else in the program
//! reads or writes files or asks the clock; whether what was typed is a folder, and how the terminal is set, is looked at in `cli`.

mod checksum;
mod digest;
mod disk;
mod doubles;
mod failure;
mod looks;
mod memory;
mod names;
mod ordinary;
mod renamed;
mod single;
mod snapshot;
mod staging;
mod system;
mod walk;
mod watch;

use std::collections::BTreeMap;
use std::io;
use std::path::Path;

pub use checksum::Checksum;
pub use digest::Digest;
pub use disk::Disk;
pub use failure::{mend_of, mendable};
pub use looks::Looks;
pub use memory::Memory;
pub use names::is_device;
pub use renamed::Renamed;
pub use snapshot::{News, Snapshot};
pub use staging::MANIFEST;
pub use watch::Watch;

/// The kinds of processor and of system that the program is made for.
pub const MACHINE: [&str; 2] = [std::env::consts::ARCH, std::env::consts::OS];

/// One file that a guide's folder holds.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Entry {
    /// The path from the guide's folder, with forward slashes.
    pub path: String,
    /// The size in bytes.
    pub size: u64,
}

/// What a listing found: the files, and what could not be taken in.
#[derive(Debug, Clone, Default)]
pub struct Listing {
    /// All ordinary files, sorted by path.
    pub files: Vec<Entry>,
    /// Paths that were left out, sorted, each with the reason: a link that leads out of the guide, a device, a name that is not text.
    pub refused: Vec<(String, String)>,
    /// The folders among these that are left out for the sake of another, whose name differs from theirs only in capitals or
    /// in how its accents are stored; each with the path of that other.
    pub twins: BTreeMap<String, String>,
}

/// What a folder is written for; it decides what may be there before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A published site: it may take the place of a site that was published before, and nothing else.
    Site,
    /// A new guide: the folder must be empty or not exist.
    Guide,
}

/// The outside world as the program sees it.
pub trait Door: Sync {
    /// All files below `folder` of the guide.
    ///
    /// # Errors
    /// When the folder does not exist or can't be read.
    fn list(&self, folder: &str) -> io::Result<Listing>;

    /// The bytes of one file of the guide, at most `limit` of them.
    ///
    /// # Errors
    /// When the file can't be read, or when it is larger than `limit` (of kind [`io::ErrorKind::FileTooLarge`]).
    fn read(&self, path: &str, limit: u64) -> io::Result<Vec<u8>>;

    /// What tells this state of a file from every other that this door has shown: the same stamp, the same bytes.
    /// None where only reading can tell.
    fn stamp(&self, _path: &str) -> Option<u64> {
        None
    }

    /// Gives one file of the guide another name in its folder; its bytes stay as they are.
    ///
    /// # Errors
    /// When it can't be renamed, or a file of the new name is there already.
    fn rename(&self, from: &str, to: &str) -> io::Result<()>;

    /// Writes one file outside the guide, whole or not at all. It takes the place of another only if `ours` says so of
    /// the first bytes of that one.
    ///
    /// # Errors
    /// When it can't be written, or of kind [`io::ErrorKind::AlreadyExists`] when something else stands there.
    fn save(&self, target: &Path, bytes: &[u8], ours: fn(&[u8]) -> bool) -> io::Result<()>;

    /// Opens a staging place for what is to become the folder `target`.
    ///
    /// # Errors
    /// When `target` may not be written for this purpose, or no staging place can be made beside it.
    fn stage(&self, target: &Path, purpose: Purpose) -> io::Result<Box<dyn Staging>>;
}

/// What the list of a published folder says of one of its files.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Note {
    /// The hash of its bytes.
    pub bytes: Digest,
    /// Their checksum, by which the next run sees whether the file is still as it was written.
    pub sum: Checksum,
    /// The hash of all that it was made from; none where it is made anew in every run.
    pub from: Option<Digest>,
}

impl Note {
    /// What is to be noted of a file with these bytes, made from what has the hash `from`.
    pub fn of(bytes: &[u8], from: Option<Digest>) -> Self {
        Self { bytes: Digest::of([bytes]), sum: Checksum::of(bytes), from }
    }
}

/// A folder in the making. Dropped before [`Staging::swap`], it leaves nothing behind.
pub trait Staging: Send + Sync {
    /// Writes one file by its path in the new folder (forward slashes).
    ///
    /// # Errors
    /// When it can't be written, or its path leads out of the folder, or was written before.
    fn write(&self, path: &str, bytes: &[u8]) -> io::Result<()>;

    /// The bytes of a file that was written to the new folder before.
    ///
    /// # Errors
    /// When there is none, or it can't be read.
    fn written(&self, path: &str) -> io::Result<Vec<u8>>;

    /// The bytes of a file of the site that still stands where the new folder is to stand, at most `limit` of them.
    ///
    /// # Errors
    /// When there is no such site or file, or it can't be read.
    fn standing(&self, path: &str, limit: u64) -> io::Result<Vec<u8>>;

    /// Notes of files, by their paths, what the list of the new folder is to say of them, at any time before [`Self::swap`]. A
    /// file without a note is made anew by the next run.
    fn note(&self, notes: BTreeMap<Box<str>, Note>);

    /// What the list of the site that still stands says of a file. Nothing, where the list is not whole and unchanged.
    fn noted(&self, path: &str) -> Option<Note>;

    /// Takes a file of the site that still stands over into the new folder, if its bytes are wanted; whether that was done.
    ///
    /// # Errors
    /// When it is wanted, but can't be brought over, or its path was written before.
    fn keep(&self, path: &str, wanted: &mut dyn FnMut(&[u8]) -> bool) -> io::Result<bool>;

    /// Puts the new folder in the place of the old one as one change.
    ///
    /// # Errors
    /// When that fails; then the old folder stands as it was.
    fn swap(self: Box<Self>) -> io::Result<()>;
}
