//! From what was typed to what holds: folders that are there, paths that can be used.

use std::path::{Path, PathBuf};

use super::terminal::Trouble;
use crate::door::Disk;

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
        if !path.is_dir() {
            return Err(Trouble::new(format!("there is no folder {shown}"), "name the folder that holds content/"));
        }
        if !path.join("content").is_dir() {
            let mend =
                format!("name the folder that holds content/, or lay out a new guide with 'maulstick start {shown}'");
            return Err(Trouble::new(format!("{shown} is no guide: there is no content/ in it"), &mend));
        }
        Ok(Self { path: path.to_owned(), door: Disk::new(path) })
    }

    /// The folder itself.
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// Where the site goes.
    pub(super) fn target(&self, asked: Option<&PathBuf>) -> PathBuf {
        asked.cloned().unwrap_or_else(|| self.path.join("published"))
    }
}
