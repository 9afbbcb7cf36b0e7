//! One file on the disk, written whole or not at all.

use std::fs;
use std::io::{self, Read, Write};
use std::path::Path;

use tempfile::TempPath;

use super::failure::{about, failure, mendable, plain};
use super::system;

/// How much of a file tells whether it is ours, in bytes.
const LOOKED_AT: u64 = 1 << 20;

/// Writes a file beside its place and moves it in. What is there is replaced only if `ours` knows it.
pub(super) fn save(target: &Path, bytes: &[u8], ours: fn(&[u8]) -> bool) -> io::Result<()> {
    let folder = target.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match fs::metadata(folder) {
        Ok(found) if found.is_dir() => {}
        Ok(_) => {
            let message = format!("'{}' is no folder", folder.display());
            return Err(failure(io::ErrorKind::NotADirectory, message));
        }
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            let message = format!("the folder '{}' is not there", folder.display());
            return Err(failure(io::ErrorKind::NotFound, message));
        }
        Err(error) => return Err(about(folder)(error)),
    }
    let replaces = match fs::symlink_metadata(target) {
        Ok(_) => true,
        Err(error) if error.kind() == io::ErrorKind::NotFound => false,
        Err(error) => return Err(about(target)(error)),
    };
    if replaces && !looks_ours(target, ours)? {
        let message = format!("'{}' is there already and is none of ours", target.display());
        return Err(failure(io::ErrorKind::AlreadyExists, message));
    }
    let mut maker = tempfile::Builder::new();
    system::permit_file(&mut maker);
    let mut file = maker.tempfile_in(folder).map_err(|error| about(folder)(without_path(&error)))?;
    file.write_all(bytes).map_err(|error| about(target)(without_path(&error)))?;
    move_in(file.into_temp_path(), target, replaces)
}

fn move_in(file: TempPath, target: &Path, replaces: bool) -> io::Result<()> {
    let mut waiting = Some(file);
    let moved = system::patiently(|| {
        let Some(file) = waiting.take() else { return Ok(()) };
        let moved = if replaces { file.persist(target) } else { file.persist_noclobber(target) };
        moved.map_err(|error| {
            waiting = Some(error.path);
            error.error
        })
    });
    moved.map_err(|error| {
        let held = system::is_held_open(&error);
        let message = format!("'{}' can't be written: {error}", plain(target));
        if held {
            let mend = "close what shows it, and try again; nothing was changed";
            return mendable(error.kind(), message + "; another program holds it", mend);
        }
        failure(error.kind(), message)
    })
}

/// What the system says, without the path that the library adds: a name beside the target that nobody has heard of.
fn without_path(error: &io::Error) -> io::Error {
    let said = error.to_string();
    failure(error.kind(), said.split(" at path ").next().unwrap_or(&said))
}

fn looks_ours(target: &Path, ours: fn(&[u8]) -> bool) -> io::Result<bool> {
    // A link, a folder or a device is nothing that we write.
    let Ok(file) = system::open(target) else { return Ok(false) };
    if !file.metadata().map_err(about(target))?.is_file() {
        return Ok(false);
    }
    let mut head = Vec::new();
    file.take(LOOKED_AT).read_to_end(&mut head).map_err(about(target))?;
    Ok(ours(&head))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ours(head: &[u8]) -> bool {
        head.starts_with(b"card")
    }

    #[test]
    fn only_a_file_of_ours_is_replaced() {
        let folder = tempfile::tempdir().unwrap();
        let place = folder.path().join("a.pdf");
        save(&place, b"card 1", ours).unwrap();
        save(&place, b"card 2", ours).unwrap();
        assert_eq!(fs::read(&place).unwrap(), b"card 2");
        fs::write(&place, "diary").unwrap();
        assert_eq!(save(&place, b"card 3", ours).unwrap_err().kind(), io::ErrorKind::AlreadyExists);
        assert_eq!(fs::read(&place).unwrap(), b"diary");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left beside it");
    }

    #[test]
    fn a_folder_that_is_not_there_is_named_and_no_other_path() {
        let folder = tempfile::tempdir().unwrap();
        let missing = folder.path().join("nodir");
        let error = save(&missing.join("a.pdf"), b"card", ours).unwrap_err();
        assert_eq!(error.kind(), io::ErrorKind::NotFound);
        assert_eq!(error.to_string(), format!("the folder '{}' is not there", missing.display()));
        let file = folder.path().join("file");
        fs::write(&file, "diary").unwrap();
        let error = save(&file.join("a.pdf"), b"card", ours).unwrap_err();
        assert_eq!(error.to_string(), format!("'{}' is no folder", file.display()));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_or_a_folder_is_not_written_through() {
        let folder = tempfile::tempdir().unwrap();
        let (link, other) = (folder.path().join("link.pdf"), folder.path().join("other"));
        fs::write(&other, "card").unwrap();
        std::os::unix::fs::symlink(&other, &link).unwrap();
        assert!(save(&link, b"card 1", ours).is_err());
        assert!(save(folder.path(), b"card 1", ours).is_err());
        assert_eq!(fs::read(&other).unwrap(), b"card");
    }

    #[cfg(windows)]
    #[test]
    fn a_card_that_another_program_shows_is_waited_for_and_then_named() {
        use std::os::windows::fs::OpenOptionsExt;
        let folder = tempfile::tempdir().unwrap();
        let place = folder.path().join("a.pdf");
        save(&place, b"card 1", ours).unwrap();
        // A reader of PDF files lets others read, and neither write nor take away.
        let show = || fs::OpenOptions::new().read(true).share_mode(1).open(&place).unwrap();
        let shown = show();
        let lets_go = std::thread::spawn(move || {
            std::thread::sleep(std::time::Duration::from_millis(200));
            drop(shown);
        });
        save(&place, b"card 2", ours).unwrap();
        lets_go.join().unwrap();
        assert_eq!(fs::read(&place).unwrap(), b"card 2");
        let shown = show();
        let error = save(&place, b"card 3", ours).unwrap_err();
        assert!(error.to_string().contains("another program holds it"), "{error}");
        drop(shown);
        assert_eq!(fs::read(&place).unwrap(), b"card 2");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left beside it");
    }
}
