//! Where a text stands, and paths as they are written there.

use unicode_normalization::UnicodeNormalization;

use crate::guide::library::{Library, path_in_content};
use crate::report::{FileId, Files, wording};

/// The file that a text stands in, and what can be named from there.
pub(crate) struct Context<'a> {
    /// The files.
    pub(crate) files: &'a Files,
    /// All names.
    pub(crate) library: &'a Library,
    /// The file that is read.
    pub(crate) file: FileId,
}

impl Context<'_> {
    /// The path of this file from the content folder.
    pub(super) fn own_path(&self) -> String {
        path_in_content(self.files.path(self.file))
    }

    /// How a path from the content folder is written in this file.
    pub(crate) fn written_here(&self, path: &str) -> String {
        let own = self.own_path();
        let own: Vec<&str> = own.split('/').collect();
        let there: Vec<&str> = path.split('/').collect();
        let folders = own.len() - 1;
        let shared = (0..folders.min(there.len() - 1)).take_while(|at| own[*at] == there[*at]).count();
        "../".repeat(folders - shared) + &there[shared..].join("/")
    }

    /// What mends a path from the content folder that leads nowhere, where this one of a file is near it.
    pub(super) fn meant(&self, path: &str, near: &str) -> String {
        let near_here = wording::quoted(&self.written_here(near));
        if path.nfc().eq(near.nfc()) {
            return format!(
                "{near_here} is there, but its accents are stored otherwise, each beside its letter or as one with it: \
                 type the name of the file anew, as you typed it here"
            );
        }
        format!("did you mean {near_here}?")
    }

    /// The path from the content folder of what is written as a path from this file, or `None` where it leads out.
    pub(crate) fn path_of(&self, written: &str) -> Option<String> {
        let own = self.own_path();
        let folder = own.rsplit_once('/').map_or("", |(folder, _)| folder);
        let start = if written.starts_with('/') { "" } else { folder };
        let mut parts: Vec<&str> = start.split('/').filter(|part| !part.is_empty()).collect();
        for part in written.split('/').filter(|part| !part.is_empty() && *part != ".") {
            if part == ".." {
                parts.pop()?;
            } else {
                parts.push(part);
            }
        }
        Some(parts.join("/"))
    }
}
