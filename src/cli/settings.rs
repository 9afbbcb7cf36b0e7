//! From what was typed to what holds: folders that are there, paths that can be used.

use std::io::ErrorKind;
use std::path::{Component, Path, PathBuf};

use super::terminal::{Trouble, shell_word};
use crate::door::{Disk, Door};

/// A guide's folder that is one.
#[derive(Debug)]
pub(super) struct GuideFolder {
    /// The folder.
    path: PathBuf,
    /// The door to it.
    pub(super) door: Disk,
}

impl GuideFolder {
    /// Opens the folder of a guide.
    pub(super) fn open(path: &Path) -> Result<Self, Trouble> {
        let shown = path.display();
        if !is_folder(path)? {
            return Err(Trouble::new(format!("there is no folder {shown}"), "name the folder that holds content/"));
        }
        if !is_folder(&path.join("content"))? {
            // A guide is laid out in a folder that has a name.
            let new = path.file_name().map_or_else(|| "my-guide".to_owned(), |_| shell_word(path));
            let mend = match holder(path) {
                Some(guide) => format!("name {}, the folder that holds content/", shell_word(&guide)),
                None => {
                    format!("name the folder that holds content/, or lay out a new guide with 'maulstick start {new}'")
                }
            };
            return Err(Trouble::new(format!("{shown} is no guide: there is no content/ in it"), &mend));
        }
        Ok(Self { path: path.to_owned(), door: Disk::new(path) })
    }

    /// The folder itself.
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// The folder as it was typed.
    pub(super) fn shown(&self) -> String {
        self.path.display().to_string()
    }

    /// Where the site goes.
    pub(super) fn target(&self, asked: Option<&PathBuf>) -> PathBuf {
        asked.cloned().unwrap_or_else(|| self.path.join("published"))
    }
}

/// Whether there is a folder; trouble where that can't be told, as when it may not be looked at.
fn is_folder(path: &Path) -> Result<bool, Trouble> {
    match path.metadata() {
        Ok(found) => Ok(found.is_dir()),
        Err(error) if matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => Ok(false),
        Err(error) => {
            let mend = match error.kind() {
                ErrorKind::PermissionDenied => "see that you may look into the folders on the way to it, and read it",
                _ => "name the folder itself by another way",
            };
            Err(Trouble::new(format!("{} can't be read: {error}", path.display()), mend))
        }
    }
}

/// The folder of the guide that a folder is inside of: one with `content/guide.yaml` in it.
fn holder(path: &Path) -> Option<PathBuf> {
    let is_guide = |folder: &Path| folder.join("content").join("guide.yaml").is_file();
    let whole = path.canonicalize().ok()?;
    let (up, _) = whole.ancestors().enumerate().skip(1).find(|(_, folder)| is_guide(folder))?;
    let is_below = path.components().all(|part| matches!(part, Component::Normal(_)));
    let count = path.components().count();
    if is_below && count >= up {
        return if count == up { Some(PathBuf::from(".")) } else { path.ancestors().nth(up).map(Path::to_owned) };
    }
    // Where the path as it was typed does not reach so far up, the way there does.
    let way: PathBuf = std::iter::repeat_n("..", up).collect();
    Some(if path == Path::new(".") { way } else { path.join(way) })
}

/// The bytes of one file that is named on the command line, at most `limit` of them; `mend` says what to name instead.
///
/// It may be a link: unlike one in a guide, which may have come out of somebody's archive, it was named on purpose.
pub(super) fn read_file(path: &Path, limit: u64, mend: &str) -> Result<Vec<u8>, Trouble> {
    let shown = path.display();
    let path = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let name = path.file_name().and_then(|name| name.to_str()).filter(|_| !path.is_dir());
    let name = name.ok_or_else(|| Trouble::new(format!("{shown} is no file"), mend))?;
    Disk::new(folder).read(name, limit).map_err(|error| {
        let why = match error.kind() {
            ErrorKind::NotFound => format!("there is no file {shown}"),
            ErrorKind::FileTooLarge => format!("{shown} is larger than {} MB", limit / 1_000_000),
            _ => format!("{shown} can't be read: {error}"),
        };
        Trouble::new(why, mend)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(unix)]
    #[test]
    fn a_guide_that_can_not_be_looked_at_is_told_from_none() {
        let folder = tempfile::tempdir().unwrap();
        std::os::unix::fs::symlink("round", folder.path().join("round")).unwrap();
        assert!(is_folder(&folder.path().join("round")).is_err());
        assert!(matches!(is_folder(&folder.path().join("none")), Ok(false)));
        std::fs::write(folder.path().join("file"), "").unwrap();
        assert!(matches!(is_folder(&folder.path().join("file/content")), Ok(false)));
        assert!(matches!(is_folder(folder.path()), Ok(true)));
    }

    #[cfg(unix)]
    #[test]
    fn a_file_that_is_named_may_be_a_link() {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("stock.yaml"), "bog-iron: 12 ml\n").unwrap();
        std::os::unix::fs::symlink("stock.yaml", folder.path().join("have.yaml")).unwrap();
        let read = |limit| read_file(&folder.path().join("have.yaml"), limit, "").map_err(|_| ());
        assert_eq!((read(100).unwrap(), read(3)), (b"bog-iron: 12 ml\n".to_vec(), Err(())));
    }

    #[test]
    fn a_folder_inside_a_guide_names_the_guide() {
        let folder = tempfile::tempdir().unwrap();
        let guide = folder.path().join("fen");
        std::fs::create_dir_all(guide.join("content/schemes")).unwrap();
        assert_eq!(holder(&guide.join("content/schemes")), None);
        std::fs::write(guide.join("content/guide.yaml"), "title: T\n").unwrap();
        let found = holder(&guide.join("content/schemes")).unwrap();
        assert_eq!(found.canonicalize().unwrap(), guide.canonicalize().unwrap());
        assert_eq!(holder(folder.path()), None);
    }
}
