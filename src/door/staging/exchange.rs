//! The moment in which the new folder takes the place of the old one.

use std::io;
use std::path::Path;

use super::super::failure::{failure, mendable, plain};
use super::super::system;
use super::target::Target;

/// Puts `new` into the place, and the folder that is there where `new` was.
///
/// # Errors
/// When that can't be; then the old folder stands in its place.
pub(super) fn exchange(new: &Path, target: &Target) -> io::Result<()> {
    match system::exchange(new, &target.path()) {
        Err(error) if error.kind() == io::ErrorKind::Unsupported => step_by_step(new, target),
        other => other.map_err(|error| explained(&error, target)),
    }
}

/// The same in three steps, for file systems that can't do it in one.
///
/// The old folder goes to a name of its own first: should the run end between the first two steps, the next one
/// finds it there and puts it back.
fn step_by_step(new: &Path, target: &Target) -> io::Result<()> {
    let (path, aside) = (target.path(), target.aside());
    if aside.symlink_metadata().is_ok() {
        // What could not be cleared away has something of the author's in it, or a program holds it.
        let message = format!("an older site is still in '{}'", plain(&aside));
        let mend =
            "close what shows it, move what is yours to where you want it, and remove that folder; nothing was changed";
        return Err(mendable(io::ErrorKind::AlreadyExists, message, mend));
    }
    system::rename(&path, &aside).map_err(|error| explained(&error, target))?;
    if let Err(error) = system::rename(new, &path) {
        return Err(if system::rename(&aside, &path).is_ok() {
            explained(&error, target)
        } else {
            let mend = format!("the old site is kept in '{}': give that its old name back", plain(&aside));
            mendable(error.kind(), format!("the new site can't be put in its place: {error}"), mend)
        });
    }
    // Should this fail, the next run finds and removes it under the other name.
    let _ = system::rename(&aside, new);
    Ok(())
}

/// Moves `new` into the place, where nothing or only an empty folder stands; whether that was so.
///
/// # Errors
/// When it can't be moved for another reason than that something stands in the place.
pub(super) fn move_in(new: &Path, target: &Target) -> io::Result<bool> {
    use io::ErrorKind::{AlreadyExists, DirectoryNotEmpty, NotADirectory};
    match system::move_in(new, &target.path()) {
        Ok(()) => Ok(true),
        Err(error) if matches!(error.kind(), AlreadyExists | DirectoryNotEmpty | NotADirectory) => Ok(false),
        Err(error) => Err(explained(&error, target)),
    }
}

fn explained(error: &io::Error, target: &Target) -> io::Error {
    let place = target.path();
    let said = format!("the folder '{}' can't be replaced: {error}", plain(&place));
    let (reason, mend) = match error.kind() {
        _ if system::is_held_open(error) => (
            "; another program holds it or a file in it",
            "close what shows it, leave it in other windows, and try again; nothing was changed",
        ),
        io::ErrorKind::ResourceBusy | io::ErrorKind::CrossesDevices => (
            "; it may be a disk of its own, which can't be replaced as a whole",
            "name a folder in it; nothing was changed",
        ),
        kind => return failure(kind, said),
    };
    mendable(error.kind(), said + reason, mend)
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::path::PathBuf;

    use super::super::super::failure::mend_of;
    use super::*;

    fn place() -> (tempfile::TempDir, Target, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let (old, new) = (folder.path().join("site"), folder.path().join("new"));
        for (path, text) in [(&old, "old"), (&new, "new")] {
            fs::create_dir(path).unwrap();
            fs::write(path.join("text"), text).unwrap();
        }
        (folder, Target::new(&old).unwrap(), new)
    }

    fn text(folder: &Path) -> String {
        fs::read_to_string(folder.join("text")).unwrap_or_default()
    }

    #[test]
    fn both_ways_exchange_the_folders() {
        for way in [exchange, step_by_step] {
            let (_folder, target, new) = place();
            way(&new, &target).unwrap();
            assert_eq!((text(&target.path()).as_str(), text(&new).as_str()), ("new", "old"));
            assert!(!target.aside().exists());
        }
    }

    #[test]
    fn when_the_new_folder_can_not_come_the_old_one_stays() {
        for way in [exchange, step_by_step] {
            let (folder, target, _new) = place();
            assert!(way(&folder.path().join("gone"), &target).is_err());
            assert_eq!(text(&target.path()), "old");
            assert!(!target.aside().exists());
        }
    }

    #[test]
    fn what_stands_aside_already_is_not_replaced() {
        let (_folder, target, new) = place();
        fs::create_dir(target.aside()).unwrap();
        fs::write(target.aside().join("text"), "older").unwrap();
        let error = step_by_step(&new, &target).unwrap_err();
        assert!(
            error.to_string().contains(".site.aside") && mend_of(&error).unwrap().contains("remove that folder"),
            "{error}"
        );
        assert_eq!((text(&target.path()).as_str(), text(&target.aside()).as_str()), ("old", "older"));
    }

    #[test]
    fn a_folder_moves_in_where_nothing_stands() {
        let (folder, target, new) = place();
        assert!(!move_in(&new, &target).unwrap());
        assert_eq!((text(&target.path()).as_str(), text(&new).as_str()), ("old", "new"));
        fs::create_dir(folder.path().join("empty")).unwrap();
        let empty = Target::new(&folder.path().join("empty")).unwrap();
        assert!(move_in(&new, &empty).unwrap());
        assert_eq!(text(&empty.path()), "new");
        let missing = Target::new(&folder.path().join("missing")).unwrap();
        assert!(move_in(&empty.path(), &missing).unwrap());
        assert_eq!(text(&missing.path()), "new");
    }

    #[test]
    fn a_disk_of_its_own_is_explained() {
        let (_folder, target, _new) = place();
        let error = explained(&io::ErrorKind::ResourceBusy.into(), &target);
        assert!(mend_of(&error).unwrap().contains("name a folder in it"), "{error}");
        assert!(!explained(&io::ErrorKind::PermissionDenied.into(), &target).to_string().contains("disk"));
    }
}
