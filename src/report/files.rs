//! The text files of a guide, so that a place can be shown as path, line and column.

use std::sync::Arc;

use super::{FileId, Place};

/// One text file.
#[derive(Debug, Clone)]
struct File {
    path: Arc<str>,
    text: Arc<str>,
}

/// All text files of a run, in the order of their paths.
#[derive(Debug, Clone, Default)]
pub struct Files {
    files: Vec<File>,
}

impl Files {
    /// Adds a file by its path from the guide's folder (forward slashes) and says under which id it stands.
    pub fn add(&mut self, path: impl Into<Arc<str>>, text: impl Into<Arc<str>>) -> FileId {
        let id = FileId::new(self.files.len());
        self.files.push(File { path: path.into(), text: text.into() });
        id
    }

    /// The path from the guide's folder, with forward slashes.
    pub fn path(&self, file: FileId) -> &str {
        self.files.get(file.index()).map_or("", |file| &file.path)
    }

    /// The whole text.
    pub fn text(&self, file: FileId) -> &str {
        self.files.get(file.index()).map_or("", |file| &file.text)
    }

    /// The whole text, to be kept without copying it.
    pub fn shared_text(&self, file: FileId) -> Arc<str> {
        self.files.get(file.index()).map_or_else(|| Arc::from(""), |file| Arc::clone(&file.text))
    }

    /// Line and column of the first character of a place, both counted from 1, the column in characters.
    pub fn line_and_column(&self, place: Place) -> (usize, usize) {
        let text = self.text(place.file);
        let before = floor_boundary(text, place.start as usize);
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
    }

    /// The bytes of a place, moved onto character boundaries, never past the end of the text.
    pub fn byte_range(&self, place: Place) -> std::ops::Range<usize> {
        let text = self.text(place.file);
        let start = floor_boundary(text, place.start as usize).len();
        let end = floor_boundary(text, place.end as usize).len();
        start..end.max(start)
    }
}

/// The text up to `byte`, or up to the last character boundary before it.
fn floor_boundary(text: &str, byte: usize) -> &str {
    &text[..text.floor_char_boundary(byte)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_columns_count_characters_from_one() {
        let mut files = Files::default();
        let id = files.add("a.md", "één\nzwei drei\n");
        let drei = files.text(id).find("drei").unwrap();
        assert_eq!(files.line_and_column(Place::new(id, drei, drei + 4)), (2, 6));
        assert_eq!(files.line_and_column(Place::new(id, 2, 3)), (1, 2));
        assert_eq!(files.line_and_column(Place::new(id, 900, 901)), (3, 1));
    }
}
