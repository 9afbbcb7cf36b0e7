//! A file that is the same in the old site: it gets a second name in the new one and keeps its times.
//!
//! Nothing in a published folder is ever changed in place, so two folders may share a file. Whichever of them is
//! removed in the end, the other keeps it.

use std::fs::{self, File, Metadata};
use std::io::{self, Read};
use std::path::Path;
use std::time::SystemTime;

use super::super::system;

/// What became of a file whose bytes may be in the old site.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Old {
    /// The old file stands in the new site too.
    Linked,
    /// The bytes are the same, but the file can't have a second name; it was last changed then.
    Same(SystemTime),
    /// There is no such file, or it has other bytes.
    Other,
}

/// Gives the old file its second name, if it has these bytes.
///
/// Another run may put its own site into the old one's place at any moment. So the bytes are read from the opened
/// file, and the new name must lead to that very file.
pub(super) fn take_over(old: &Path, bytes: &[u8], new: &Path) -> Old {
    match same(old, bytes) {
        Ok(Some(found)) => found.named(old, new),
        _ => Old::Other,
    }
}

/// An ordinary file of the old site, opened.
#[derive(Debug)]
pub(super) struct Standing {
    file: File,
    known: Metadata,
    changed: SystemTime,
}

impl Standing {
    /// Reads a file of the old site into `room`, which may have any length before.
    ///
    /// # Errors
    /// When there is no ordinary file, or it can't be read, or changes meanwhile.
    pub(super) fn read<'r>(old: &Path, room: &'r mut Vec<u8>) -> io::Result<(&'r [u8], Self)> {
        let mut file = system::open(old)?;
        let known = file.metadata()?;
        if !known.is_file() {
            return Err(io::ErrorKind::InvalidInput.into());
        }
        let length = usize::try_from(known.len()).map_err(|_| io::ErrorKind::FileTooLarge)?;
        // With one byte more, so that a file which grew is seen.
        let whole = length.checked_add(1).ok_or(io::ErrorKind::FileTooLarge)?;
        if room.len() < whole {
            // What stands there may be of any size.
            room.try_reserve_exact(whole - room.len()).map_err(|_| io::ErrorKind::OutOfMemory)?;
            room.resize(whole, 0);
        }
        let mut read = 0;
        while let Some(rest) = room.get_mut(read..whole).filter(|rest| !rest.is_empty()) {
            let room = rest.len();
            let count = file.read(rest)?;
            read += count;
            // Less than there is room for is the end: to ask once more would be another call to the system for each file.
            if count == 0 || (read == length && count < room) {
                break;
            }
        }
        let bytes = room.get(..length).filter(|_| read == length).ok_or(io::ErrorKind::InvalidData)?;
        let changed = known.modified()?;
        Ok((bytes, Self { file, known, changed }))
    }

    /// Gives the file, which stood at `old` when it was read, its second name.
    pub(super) fn named(&self, old: &Path, new: &Path) -> Old {
        if fs::hard_link(old, new).is_err() {
            return Old::Same(self.changed);
        }
        if system::leads_to(new, &self.file, &self.known).unwrap_or(false) {
            return Old::Linked;
        }
        let _ = fs::remove_file(new);
        Old::Other
    }
}

/// The opened file, if it is an ordinary one with these bytes.
fn same(old: &Path, bytes: &[u8]) -> io::Result<Option<Standing>> {
    let mut file = system::open(old)?;
    let known = file.metadata()?;
    if !known.is_file() || known.len() != bytes.len() as u64 {
        return Ok(None);
    }
    let mut rest = bytes;
    let mut piece = [0; 16 * 1024];
    loop {
        let count = file.read(&mut piece)?;
        let Some(after) = rest.strip_prefix(piece.get(..count).unwrap_or_default()) else { return Ok(None) };
        if count == 0 {
            let changed = known.modified()?;
            return Ok(after.is_empty().then_some(Standing { file, known, changed }));
        }
        rest = after;
    }
}

#[cfg(test)]
mod tests {
    #[cfg(unix)]
    use std::os::unix::fs::{MetadataExt, symlink};

    use super::*;

    #[cfg(unix)]
    #[test]
    fn only_the_same_bytes_are_taken_over() {
        let folder = tempfile::tempdir().unwrap();
        let (old, new) = (folder.path().join("old"), folder.path().join("new"));
        let long = vec![7; 40_000];
        fs::write(&old, &long).unwrap();
        let mut other = long.clone();
        other[39_999] = 8;
        for bytes in [&other[..], &long[1..], b""] {
            assert_eq!(take_over(&old, bytes, &new), Old::Other);
            assert!(!new.exists());
        }
        assert_eq!(take_over(&old, &long, &new), Old::Linked);
        assert_eq!(fs::metadata(&old).unwrap().ino(), fs::metadata(&new).unwrap().ino());
        assert_eq!(take_over(&folder.path().join("missing"), &long, &folder.path().join("third")), Old::Other);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_is_not_taken_for_the_file_it_leads_to() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("elsewhere"), "text").unwrap();
        symlink("elsewhere", folder.path().join("old")).unwrap();
        assert_eq!(take_over(&folder.path().join("old"), b"text", &folder.path().join("new")), Old::Other);
    }

    #[test]
    fn where_no_second_name_can_be_the_time_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let old = folder.path().join("old");
        fs::write(&old, "text").unwrap();
        let changed = fs::metadata(&old).unwrap().modified().unwrap();
        assert_eq!(take_over(&old, b"text", &folder.path().join("no such folder/new")), Old::Same(changed));
    }
}
