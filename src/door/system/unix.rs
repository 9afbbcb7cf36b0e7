//! The system's part of the door on Linux, macOS and their kin.

use std::fs::{self, File, Metadata, Permissions, TryLockError};
use std::io::{self, Seek, Write};
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant};

use rustix::fs::{Mode, OFlags};
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
use rustix::io::Errno;

use super::{Holding, PAUSE, held_too_long, list_of, rename_if_free};

/// Opens a file to read: not through a link, and without waiting for the other end of a pipe.
pub(in crate::door) fn open(path: &Path) -> io::Result<File> {
    open_with(path, OFlags::RDONLY)
}

/// Opens a file that is there already to read and write, not through a link.
///
/// Network file systems give an exclusive lock only on a file that is open for writing.
fn open_to_lock(path: &Path) -> io::Result<File> {
    open_with(path, OFlags::RDWR)
}

fn open_with(path: &Path, access: OFlags) -> io::Result<File> {
    let flags = access | OFlags::NOFOLLOW | OFlags::NONBLOCK | OFlags::CLOEXEC;
    Ok(File::from(rustix::fs::open(path, flags, Mode::empty())?))
}

/// What the system notes about a file. A write changes its times, a file that takes its place has another number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::door) struct Trace {
    /// How many bytes it has.
    pub(in crate::door) size: u64,
    file: (u64, u64),
    modified: (i64, i64),
    changed: (i64, i64),
}

/// What the system notes about a file, not through a link.
pub(in crate::door) fn trace(path: &Path) -> io::Result<Trace> {
    let found = fs::symlink_metadata(path)?;
    Ok(Trace {
        size: found.len(),
        file: (found.dev(), found.ino()),
        modified: (found.mtime(), found.mtime_nsec()),
        changed: (found.ctime(), found.ctime_nsec()),
    })
}

/// The number that no other file has at the same time: of the disk, and of the file on it.
fn identity(file: &File) -> io::Result<(u64, u64)> {
    let found = file.metadata()?;
    Ok((found.dev(), found.ino()))
}

/// The same of what a name leads to without a link. It is not opened for that: a socket or a pipe can't be.
pub(in crate::door) fn identity_at(path: &Path) -> io::Result<(u64, u64)> {
    let found = fs::symlink_metadata(path)?;
    if found.is_symlink() {
        return Err(io::Error::new(io::ErrorKind::InvalidInput, "it is a link"));
    }
    Ok((found.dev(), found.ino()))
}

/// Whether a name leads, not through a link, to an opened file of which this is known.
pub(in crate::door) fn leads_to(path: &Path, _opened: &File, known: &Metadata) -> io::Result<bool> {
    let named = fs::symlink_metadata(path)?;
    Ok((named.dev(), named.ino()) == (known.dev(), known.ino()))
}

/// A folder held against other runs by a lock on its list of files.
///
/// The lock goes when the process ends, however it ends.
#[derive(Debug)]
pub(in crate::door) struct Hold {
    list: File,
}

impl Hold {
    /// Holds a folder by its list; none when another run holds it, or when the folder or its list is gone.
    pub(in crate::door) fn of(folder: &Path, list: &str, holding: Holding) -> io::Result<Option<Self>> {
        let path = folder.join(list);
        let opened = match holding {
            Holding::New => File::options().read(true).write(true).create_new(true).open(&path),
            Holding::Wait(_) | Holding::IfFree => open_to_lock(&path),
        };
        let list = match opened {
            Ok(list) if list.metadata()?.is_file() => list,
            Ok(_) => return Ok(None),
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(error),
        };
        match holding {
            Holding::New if matches!(list.try_lock(), Err(TryLockError::WouldBlock)) => return Ok(None),
            Holding::IfFree => match list.try_lock() {
                Err(TryLockError::WouldBlock) => return Ok(None),
                tried => tried?,
            },
            Holding::Wait(longest) => lock(&list, longest)?,
            Holding::New => {}
        }
        Self { list }.if_still_at(&path)
    }

    /// A lock on a list that went away, or that got another place with its folder, is a lock on nothing.
    fn if_still_at(self, path: &Path) -> io::Result<Option<Self>> {
        match fs::symlink_metadata(path) {
            Ok(found) if (found.dev(), found.ino()) == identity(&self.list)? => Ok(Some(self)),
            Ok(_) => Ok(None),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error),
        }
    }

    /// What the list says.
    pub(in crate::door) fn read(&self) -> io::Result<Vec<u8>> {
        let mut list = &self.list;
        list.rewind()?;
        list_of(list)
    }

    /// Writes the list anew, given in pieces, through to the disk.
    pub(in crate::door) fn write(&self, pieces: impl IntoIterator<Item = String>) -> io::Result<()> {
        let mut list = &self.list;
        list.set_len(0)?;
        list.rewind()?;
        pieces.into_iter().try_for_each(|piece| list.write_all(piece.as_bytes()))?;
        list.sync_all()
    }
}

/// Locks a list once no other run holds it. On a file system without locks there is nobody to wait for but one's own luck.
fn lock(list: &File, longest: Duration) -> io::Result<()> {
    let begun = Instant::now();
    while matches!(list.try_lock(), Err(TryLockError::WouldBlock)) {
        if begun.elapsed() >= longest {
            return Err(held_too_long(longest));
        }
        thread::sleep(PAUSE);
    }
    Ok(())
}

/// Makes a link that leads where another leads.
pub(in crate::door) fn copy_link(from: &Path, to: &Path) -> io::Result<()> {
    std::os::unix::fs::symlink(fs::read_link(from)?, to)
}

/// Removes what is no folder.
pub(in crate::door) fn remove_file(path: &Path) -> io::Result<()> {
    fs::remove_file(path)
}

/// A new folder is for everybody whom the user's mask does not keep out.
pub(in crate::door) fn permit_folder(maker: &mut tempfile::Builder<'_, '_>) {
    maker.permissions(Permissions::from_mode(0o777));
}

/// A new file is for everybody whom the user's mask does not keep out.
pub(in crate::door) fn permit_file(maker: &mut tempfile::Builder<'_, '_>) {
    maker.permissions(Permissions::from_mode(0o666));
}

/// Whether a folder's own permissions let somebody write in it.
pub(in crate::door) fn may_be_written(folder: &Metadata) -> bool {
    !folder.permissions().readonly()
}

/// Lets the owner empty a folder; one that was brought over may have been read-only.
pub(in crate::door) fn loosen(folder: &Path) -> io::Result<()> {
    let mode = fs::symlink_metadata(folder)?.permissions().mode();
    if mode & 0o700 == 0o700 {
        return Ok(());
    }
    fs::set_permissions(folder, Permissions::from_mode(mode | 0o700))
}

/// The answers for what a file system, or a box that the program is kept in, does not offer; each system has its own.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
const LACKING: [Errno; 5] = [Errno::NOTSUP, Errno::OPNOTSUPP, Errno::INVAL, Errno::NOSYS, Errno::PERM];

/// Exchanges two folders as one change: nobody ever sees one of the names empty.
///
/// # Errors
/// Of kind `Unsupported` where the file system can't do it.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
pub(in crate::door) fn exchange(left: &Path, right: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, left, CWD, right, RenameFlags::EXCHANGE)
        .map_err(|error| if LACKING.contains(&error) { io::ErrorKind::Unsupported.into() } else { error.into() })
}

/// Exchanges two folders as one change, which this system has no call for.
#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
pub(in crate::door) fn exchange(_left: &Path, _right: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

/// Renames a file to a name that must be free.
#[cfg(any(target_os = "linux", target_vendor = "apple"))]
pub(in crate::door) fn rename_to_free_name(old: &Path, new: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    match renameat_with(CWD, old, CWD, new, RenameFlags::NOREPLACE) {
        // A file system that can't refuse a taken name by itself.
        Err(error) if LACKING.contains(&error) => rename_if_free(old, new),
        done => done.map_err(io::Error::from),
    }
}

/// Renames a file to a name that must be free.
#[cfg(not(any(target_os = "linux", target_vendor = "apple")))]
pub(in crate::door) fn rename_to_free_name(old: &Path, new: &Path) -> io::Result<()> {
    rename_if_free(old, new)
}

/// Renames a file or a folder.
pub(in crate::door) fn rename(old: &Path, new: &Path) -> io::Result<()> {
    fs::rename(old, new)
}

/// Moves a folder to a name that is free or that an empty folder has.
pub(in crate::door) fn move_in(new: &Path, place: &Path) -> io::Result<()> {
    fs::rename(new, place)
}

/// Whether a name can't be changed because a program holds the file open, which this family of systems does not mind.
pub(in crate::door) fn is_held_open(_error: &io::Error) -> bool {
    false
}

/// Whether this program or all together have as many files open as may be.
pub(in crate::door) fn has_too_many_open(error: &io::Error) -> bool {
    use rustix::io::Errno;
    [Errno::MFILE, Errno::NFILE].iter().any(|limit| error.raw_os_error() == Some(limit.raw_os_error()))
}

/// Does what may fail because another program holds a file open, which it never does here.
pub(in crate::door) fn patiently<T>(mut attempt: impl FnMut() -> io::Result<T>) -> io::Result<T> {
    attempt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hold_on_what_went_away_meanwhile_is_none() {
        let folder = tempfile::tempdir().unwrap();
        let list = folder.path().join("list");
        let held = |how| Hold::of(folder.path(), "list", how).unwrap();
        let first = held(Holding::New).unwrap();
        fs::remove_file(&list).unwrap();
        assert!(first.if_still_at(&list).unwrap().is_none());
        let first = held(Holding::New).unwrap();
        fs::rename(&list, folder.path().join("x")).unwrap();
        fs::write(&list, "").unwrap();
        assert!(first.if_still_at(&list).unwrap().is_none());
        assert!(held(Holding::Wait(Duration::ZERO)).is_some());
    }

    #[test]
    fn a_run_that_does_not_let_go_is_not_waited_for_without_end() {
        let folder = tempfile::tempdir().unwrap();
        let first = Hold::of(folder.path(), "list", Holding::New).unwrap();
        let wait = || Hold::of(folder.path(), "list", Holding::Wait(Duration::from_millis(50)));
        assert_eq!(wait().unwrap_err().kind(), io::ErrorKind::ResourceBusy);
        drop(first);
        assert!(wait().unwrap().is_some());
    }
}
