//! A free page.

use super::{Photo, Prose};
use crate::report::FileId;

/// One free page.
#[derive(Debug, Clone, Hash)]
pub struct Page {
    /// The name of its file, and of its page.
    pub slug: String,
    /// What it is called.
    pub title: String,
    /// One sentence on it.
    pub summary: Option<String>,
    /// A picture at its head.
    pub photo: Option<Photo>,
    /// Its text.
    pub body: Prose,
    /// Its file.
    pub file: FileId,
}
