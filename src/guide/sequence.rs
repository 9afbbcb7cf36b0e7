//! A sequence: steps that are written once and used in several schemes.

use super::Prose;
use crate::report::FileId;
use crate::trade::Stage;

/// One sequence.
#[derive(Debug, Hash)]
pub struct Sequence {
    /// The name of its folder, and of its page.
    pub slug: String,
    /// What it is called.
    pub title: String,
    /// One sentence on what it gives.
    pub summary: Option<String>,
    /// The introduction.
    pub intro: Prose,
    /// Its steps: the name of the file, the title, and what it does to the model.
    pub steps: Vec<(String, String, Stage)>,
    /// Its `sequence.md`.
    pub file: FileId,
}
