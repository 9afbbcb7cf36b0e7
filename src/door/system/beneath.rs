//! Opening a file below a folder so that no link on the way leads out of it, not even one that takes a folder's place
//! between looking and opening.

use std::fs::File;
use std::io;
use std::path::{Component, Path};

use rustix::fd::{AsFd, OwnedFd};
use rustix::fs::{Mode, OFlags, open, openat};

/// How a file is opened: to read, without waiting for the other end of a pipe.
const TO_READ: OFlags = OFlags::RDONLY.union(OFlags::NONBLOCK).union(OFlags::CLOEXEC).union(OFlags::NOFOLLOW);

/// Whether [`open_beneath`] refuses links on the way by itself.
pub(in crate::door) const SEES_LINKS: bool = true;

/// Opens a file by its path below a folder. The folder itself may be a link; nothing below it is followed.
pub(in crate::door) fn open_beneath(folder: &Path, below: &Path) -> io::Result<File> {
    let folder = open(folder, OFlags::RDONLY | OFlags::DIRECTORY | OFlags::CLOEXEC, Mode::empty())?;
    if let Some(opened) = at_once(&folder, below) {
        return Ok(File::from(opened?));
    }
    part_by_part(folder, below)
}

/// In one call, where the system has one; none where it hasn't, or doesn't let this process use it.
#[cfg(any(target_os = "linux", target_os = "android"))]
fn at_once(folder: impl AsFd, below: &Path) -> Option<rustix::io::Result<OwnedFd>> {
    use rustix::fs::{ResolveFlags, openat2};
    use rustix::io::Errno;
    let resolve = ResolveFlags::BENEATH | ResolveFlags::NO_SYMLINKS | ResolveFlags::NO_MAGICLINKS;
    match openat2(folder, below, TO_READ, Mode::empty(), resolve) {
        // Some boxes that programs are kept in refuse the call, and some old ones say that it is a wrong argument.
        Err(Errno::NOSYS | Errno::PERM | Errno::INVAL | Errno::AGAIN) => None,
        opened => Some(opened),
    }
}

/// In one call, which this system doesn't have.
#[cfg(not(any(target_os = "linux", target_os = "android")))]
fn at_once(_folder: impl AsFd, _below: &Path) -> Option<rustix::io::Result<OwnedFd>> {
    None
}

/// Folder by folder, each opened in the one before and none through a link.
fn part_by_part(folder: OwnedFd, below: &Path) -> io::Result<File> {
    let parts: Vec<_> = below.components().collect();
    if !parts.iter().all(|part| matches!(part, Component::Normal(_))) {
        return Err(io::ErrorKind::InvalidInput.into());
    }
    let Some((last, folders)) = parts.split_last() else { return Err(io::ErrorKind::InvalidInput.into()) };
    let mut at = folder;
    for part in folders {
        let flags = OFlags::RDONLY | OFlags::DIRECTORY | OFlags::NOFOLLOW | OFlags::CLOEXEC;
        at = openat(&at, part.as_os_str(), flags, Mode::empty())?;
    }
    Ok(File::from(openat(&at, last.as_os_str(), TO_READ, Mode::empty())?))
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::os::unix::fs::symlink;

    use super::*;

    #[test]
    fn nothing_below_the_folder_is_reached_through_a_link() {
        let folder = tempfile::tempdir().unwrap();
        let (guide, outside) = (folder.path().join("guide"), folder.path().join("outside"));
        fs::create_dir_all(guide.join("content/paints")).unwrap();
        fs::create_dir(&outside).unwrap();
        fs::write(guide.join("content/paints/a.yaml"), "paints").unwrap();
        fs::write(outside.join("a.yaml"), "secret").unwrap();
        symlink(&outside, guide.join("content/linked")).unwrap();
        symlink("paints/a.yaml", guide.join("content/link.yaml")).unwrap();
        symlink(&guide, folder.path().join("way")).unwrap();
        let tries: [fn(&Path, &Path) -> io::Result<File>; 2] = [open_beneath, |guide, below| {
            part_by_part(open(guide, OFlags::RDONLY | OFlags::DIRECTORY, Mode::empty())?, below)
        }];
        for tried in tries {
            let read = |below: &str| io::read_to_string(tried(&folder.path().join("way"), Path::new(below))?);
            assert_eq!(read("content/paints/a.yaml").unwrap(), "paints");
            for out in
                ["content/linked/a.yaml", "content/link.yaml", "../outside/a.yaml", "content/linked", "content/x"]
            {
                assert!(read(out).is_err(), "{out}");
            }
        }
    }
}
