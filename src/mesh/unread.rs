//! A mesh file that can't be read.

/// A file that can't be read.
#[derive(Debug, Clone)]
pub(super) struct Unread {
    /// Which of the mesh's files.
    pub(super) file: usize,
    /// Why.
    pub(super) why: String,
}
