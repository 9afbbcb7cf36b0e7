//! The text files of a guide, so that a place can be shown as path, line and column.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use super::lines::Lines;
use super::{FileId, Place};

/// One text file.
#[derive(Debug, Clone)]
struct File {
    path: Arc<str>,
    text: Arc<str>,
    lines: OnceLock<Arc<Lines>>,
}

impl File {
    /// Its lines, counted when the first place in it is shown.
    fn lines(&self) -> &Lines {
        self.lines.get_or_init(|| Arc::new(Lines::of(&self.text)))
    }
}

/// All text files of a run.
///
/// A path keeps its id for as long as the value lives, and through every copy: what was worked out about a file that
/// did not change still points into it when others came and went.
#[derive(Debug, Clone, Default)]
pub struct Files {
    list: Vec<File>,
    ids: Arc<BTreeMap<Arc<str>, FileId>>,
    marks: Vec<Place>,
    mark_ids: Arc<BTreeMap<String, FileId>>,
}

impl Files {
    /// Adds a file by its path from the guide's folder (forward slashes), or gives a known one its new text, and says
    /// under which id it is.
    pub fn add(&mut self, path: impl Into<Arc<str>>, text: impl Into<Arc<str>>) -> FileId {
        let file = File { path: path.into(), text: text.into(), lines: OnceLock::new() };
        if let Some(id) = self.ids.get(&file.path).copied() {
            if let Some(known) = self.list.get_mut(id.index()) {
                *known = file;
            }
            return id;
        }
        let id = FileId::new(self.list.len());
        Arc::make_mut(&mut self.ids).insert(Arc::clone(&file.path), id);
        self.list.push(file);
        id
    }

    /// Shows a file under another path than it was added with: one that stood in a guide only to be read.
    pub fn show_as(&mut self, path: &str, shown: impl Into<Arc<str>>) {
        let file = self.ids.get(path).and_then(|id| self.list.get_mut(id.index()));
        if let Some(file) = file {
            file.path = shown.into();
        }
    }

    /// How many bytes of text each file has.
    pub fn sizes(&self) -> impl Iterator<Item = usize> {
        self.list.iter().map(|file| file.text.len())
    }

    /// A place under a name that stays the same when text before it changes; [`Self::settled`] gives the true one.
    pub fn mark(&mut self, name: &str, place: Place) -> Place {
        let id = self.mark_ids.get(name).copied().unwrap_or_else(|| {
            let id = FileId::mark(self.marks.len());
            Arc::make_mut(&mut self.mark_ids).insert(name.to_owned(), id);
            self.marks.push(place);
            id
        });
        if let Some(at) = id.mark_index() {
            self.marks[at] = place;
        }
        Place { file: id, start: 0, end: 0 }
    }

    /// The mark of a name, if there is one.
    pub fn marked(&self, name: &str) -> Option<Place> {
        self.mark_ids.get(name).map(|id| Place { file: *id, start: 0, end: 0 })
    }

    /// Where a place is in its file; a marked one is looked up, any other is returned as it is.
    pub fn settled(&self, place: Place) -> Place {
        place.file.mark_index().and_then(|at| self.marks.get(at)).copied().unwrap_or(place)
    }

    fn file(&self, file: FileId) -> Option<&File> {
        let file = self.settled(Place::top_of(file)).file;
        self.list.get(file.index())
    }

    /// The path from the guide's folder, with forward slashes.
    pub fn path(&self, file: FileId) -> &str {
        self.file(file).map_or("", |file| &file.path)
    }

    /// The whole text.
    pub fn text(&self, file: FileId) -> &str {
        self.file(file).map_or("", |file| &file.text)
    }

    /// The whole text, to be kept without copying it.
    pub fn shared_text(&self, file: FileId) -> Arc<str> {
        self.file(file).map_or_else(|| Arc::from(""), |file| Arc::clone(&file.text))
    }

    /// Line and column of the first character of a place, both counted from 1, the column in characters.
    pub fn line_and_column(&self, place: Place) -> (usize, usize) {
        let place = self.settled(place);
        let Some(file) = self.file(place.file) else { return (1, 1) };
        let before = floor_boundary(&file.text, place.start as usize);
        file.lines().position(&file.text, before.len())
    }

    /// The bytes of a place, moved onto character boundaries, never past the end of the text.
    pub fn byte_range(&self, place: Place) -> std::ops::Range<usize> {
        let place = self.settled(place);
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

    #[test]
    fn a_path_keeps_its_id_and_a_mark_moves_with_its_text() {
        let mut files = Files::default();
        let (first, _) = (files.add("a.yaml", "one: 1\ntwo: 2\n"), files.add("b.yaml", ""));
        let two = files.mark("a.yaml#two", Place::new(first, 7, 10));
        assert_eq!(files.line_and_column(two), (2, 1));
        let mut later = files.clone();
        assert_eq!(later.add("a.yaml", "zero: 0\none: 1\ntwo: 2\n"), first);
        assert_eq!(later.mark("a.yaml#two", Place::new(first, 15, 18)), two);
        assert_eq!((later.path(two.file), later.line_and_column(two)), ("a.yaml", (3, 1)));
        assert_eq!(&later.text(two.file)[later.byte_range(two)], "two");
        assert_eq!(files.line_and_column(two), (2, 1), "a copy stands for itself");
        assert_eq!(later.settled(two), Place::new(first, 15, 18));
    }
}
