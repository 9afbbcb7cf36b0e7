//! What has to be asked of the operating system itself; to run on another kind of system touches this file alone.

use std::fs::{self, File, Metadata, Permissions};
use std::io;
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::path::Path;

use rustix::fs::{Mode, OFlags};

/// Opens a file to read: not through a link, and without waiting for the other end of a pipe.
pub(super) fn open(path: &Path) -> io::Result<File> {
    open_with(path, OFlags::RDONLY)
}

/// Opens a file that is there already to read and write, not through a link.
///
/// Network file systems give an exclusive lock only on a file that is open for writing.
pub(super) fn open_to_lock(path: &Path) -> io::Result<File> {
    open_with(path, OFlags::RDWR)
}

fn open_with(path: &Path, access: OFlags) -> io::Result<File> {
    let flags = access | OFlags::NOFOLLOW | OFlags::NONBLOCK | OFlags::CLOEXEC;
    Ok(File::from(rustix::fs::open(path, flags, Mode::empty())?))
}

/// What the system notes about a file. A write changes its times, a file that takes its place has another number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Trace {
    /// How many bytes it has.
    pub(super) size: u64,
    file: (u64, u64),
    modified: (i64, i64),
    changed: (i64, i64),
}

/// What the system notes about a file, not through a link.
pub(super) fn trace(path: &Path) -> io::Result<Trace> {
    let found = fs::symlink_metadata(path)?;
    Ok(Trace {
        size: found.len(),
        file: (found.dev(), found.ino()),
        modified: (found.mtime(), found.mtime_nsec()),
        changed: (found.ctime(), found.ctime_nsec()),
    })
}

/// Whether two descriptions are of one file.
pub(super) fn is_one_file(left: &Metadata, right: &Metadata) -> bool {
    (left.dev(), left.ino()) == (right.dev(), right.ino())
}

/// Makes a link that leads where another leads.
pub(super) fn copy_link(from: &Path, to: &Path) -> io::Result<()> {
    std::os::unix::fs::symlink(fs::read_link(from)?, to)
}

/// What a new folder may be used for before the user's mask takes from it.
pub(super) fn folder_permissions() -> Permissions {
    Permissions::from_mode(0o777)
}

/// What a new file may be used for before the user's mask takes from it.
pub(super) fn file_permissions() -> Permissions {
    Permissions::from_mode(0o666)
}

/// Lets the owner empty a folder; one that was brought over may have been read-only.
pub(super) fn loosen(folder: &Path) -> io::Result<()> {
    let mode = fs::symlink_metadata(folder)?.permissions().mode();
    if mode & 0o700 == 0o700 {
        return Ok(());
    }
    fs::set_permissions(folder, Permissions::from_mode(mode | 0o700))
}

/// Exchanges two folders as one change: nobody ever sees one of the names empty.
///
/// # Errors
/// Of kind `Unsupported` or `InvalidInput` where the file system can't do it.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
pub(super) fn exchange(left: &Path, right: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, left, CWD, right, RenameFlags::EXCHANGE)?)
}

/// Exchanges two folders as one change, which this system has no call for.
#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
pub(super) fn exchange(_left: &Path, _right: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

/// Renames a file to a name that must be free.
#[cfg(any(target_os = "linux", target_vendor = "apple"))]
pub(super) fn rename_to_free_name(old: &Path, new: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    match renameat_with(CWD, old, CWD, new, RenameFlags::NOREPLACE) {
        // A file system that can't refuse a taken name by itself.
        Err(rustix::io::Errno::INVAL | rustix::io::Errno::NOSYS) => rename_if_free(old, new),
        done => done.map_err(io::Error::from),
    }
}

/// Renames a file to a name that must be free.
#[cfg(not(any(target_os = "linux", target_vendor = "apple")))]
pub(super) fn rename_to_free_name(old: &Path, new: &Path) -> io::Result<()> {
    rename_if_free(old, new)
}

fn rename_if_free(old: &Path, new: &Path) -> io::Result<()> {
    if new.symlink_metadata().is_ok() {
        return Err(io::ErrorKind::AlreadyExists.into());
    }
    std::fs::rename(old, new)
}
