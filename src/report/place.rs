//! Where in the guide's files something is.
//!
//! A place is small (twelve bytes) because every value of every file carries one; the line and the column
//! are worked out only when a finding is shown.

use std::hash::{Hash, Hasher};

/// One text file of a guide, by its position in [`Files`](super::Files).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct FileId(u32);

impl FileId {
    /// The id of the file that is at `index` of the list of files.
    ///
    /// A guide with more than two thousand million files does not fit in memory; the index saturates.
    pub fn new(index: usize) -> Self {
        Self(u32::try_from(index).unwrap_or(u32::MAX))
    }

    /// The position in the list of files.
    pub fn index(self) -> usize {
        self.0 as usize
    }

    /// What stands for a file where only a [mark](super::Files::mark) is known: the upper half of all numbers.
    pub(super) fn mark(index: usize) -> Self {
        Self(Self::new(index).0 | MARK)
    }

    /// The position in the list of marks, if it is one.
    pub(super) fn mark_index(self) -> Option<usize> {
        (self.0 & MARK != 0 && self.0 != u32::MAX).then_some((self.0 & !MARK) as usize)
    }
}

/// Where something stands is no part of what it is: the hash of a thing stays as it is when files come before its own. What
/// stands at another place of its own file is in another text, and that is in the hash.
impl Hash for FileId {
    fn hash<H: Hasher>(&self, _: &mut H) {}
}

impl Hash for Place {
    fn hash<H: Hasher>(&self, _: &mut H) {}
}

/// The bit that tells marks from files.
const MARK: u32 = 1 << 31;

/// A stretch of bytes in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Place {
    /// The file.
    pub file: FileId,
    /// The first byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Place {
    /// The stretch from byte `start` up to byte `end` of `file`.
    pub fn new(file: FileId, start: usize, end: usize) -> Self {
        let narrow = |byte: usize| u32::try_from(byte).unwrap_or(u32::MAX);
        Self { file, start: narrow(start), end: narrow(end.max(start)) }
    }

    /// The very start of a file: for what a file as a whole lacks.
    pub fn top_of(file: FileId) -> Self {
        Self::new(file, 0, 0)
    }
}

/// A value and where its author wrote it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Placed<T> {
    /// What was written.
    pub value: T,
    /// Where.
    pub place: Place,
}

impl<T> Placed<T> {
    /// Puts a value and its place together.
    pub fn new(value: T, place: Place) -> Self {
        Self { value, place }
    }
}

impl<T> std::ops::Deref for Placed<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.value
    }
}
