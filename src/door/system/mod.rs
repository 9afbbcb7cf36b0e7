//! What has to be asked of the operating system itself: one interface, and a file for each family of systems.
//!
//! Both files offer the same functions. To run on another kind of system touches this folder alone.
//!
//! - opening a file without following a link ([`open()`]), or one on the way to it ([`open_beneath`]), and telling whether two files are one ([`identity_at`]),
//! - holding a folder against other runs ([`Hold`]),
//! - renaming, where a system has its own ways with names that are taken or in use ([`rename`], [`exchange`]),
//! - links and permissions.

#[cfg(unix)]
mod beneath;
#[cfg(unix)]
mod unix;
#[cfg(windows)]
mod windows;

#[cfg(unix)]
pub(super) use beneath::{SEES_LINKS, open_beneath};
#[cfg(unix)]
pub(super) use unix::{
    Hold, Trace, copy_link, exchange, has_too_many_open, identity_at, is_held_open, leads_to, loosen, may_be_written,
    move_in, open, patiently, permit_file, permit_folder, remove_file, rename, rename_to_free_name, trace,
};
#[cfg(windows)]
pub(super) use windows::{
    Hold, SEES_LINKS, Trace, copy_link, exchange, has_too_many_open, identity_at, is_held_open, leads_to, loosen,
    may_be_written, move_in, open, open_beneath, patiently, permit_file, permit_folder, remove_file, rename,
    rename_to_free_name, trace,
};

use std::io;
use std::path::{Path, PathBuf};
use std::time::Duration;

use super::failure::mendable;

/// The largest list of files that is read, in bytes: some hundred thousand paths.
const LARGEST_LIST: u64 = 100_000_000;

/// The bytes of a list of files, unless it is larger than any that was written here.
pub(super) fn list_of(file: impl io::Read) -> io::Result<Vec<u8>> {
    let mut list = Vec::new();
    io::Read::read_to_end(&mut file.take(LARGEST_LIST + 1), &mut list)?;
    if list.len() as u64 > LARGEST_LIST {
        let message = "the list of published files is larger than 100 MB";
        return Err(mendable(io::ErrorKind::FileTooLarge, message, "publish into another folder; nothing was changed"));
    }
    Ok(list)
}

/// A path from the root, without links and detours. Where the system can't tell that, as on some virtual drives of Windows, it
/// is the path as it is typed.
pub(super) fn whole(path: &Path) -> io::Result<PathBuf> {
    path.canonicalize().or_else(|error| match std::path::absolute(path) {
        Ok(whole) if whole.exists() => Ok(whole),
        _ => Err(error),
    })
}

/// Whether two names lead to one file, not through a link.
pub(super) fn is_one_file(left: &Path, right: &Path) -> bool {
    matches!((identity_at(left), identity_at(right)), (Ok(one), Ok(other)) if one == other)
}

/// How a folder is to be held against other runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Holding {
    /// A new folder, which gets its list of files by this.
    New,
    /// A folder with a list, even if another run holds it so long.
    Wait(Duration),
    /// A folder with a list, unless another run holds it.
    IfFree,
}

/// The pause before it is looked again whether another run is done.
pub(super) const PAUSE: Duration = Duration::from_millis(20);

/// The error for a folder that another run does not let go of.
fn held_too_long(longest: Duration) -> io::Error {
    let message = format!("another run has held it for {} seconds", longest.as_secs());
    mendable(io::ErrorKind::ResourceBusy, message, "end that run, or try again when it is done; nothing was changed")
}

/// Renames a file where no call refuses a taken name by itself.
fn rename_if_free(old: &Path, new: &Path) -> io::Result<()> {
    if new.symlink_metadata().is_ok() {
        return Err(io::ErrorKind::AlreadyExists.into());
    }
    std::fs::rename(old, new)
}
