//! A sequence: steps that are written once and used in several schemes.

use super::Prose;
use crate::report::FileId;
use crate::trade::Stage;

/// The anchor of a step on the page of its sequence, by the name of its file.
pub fn step_anchor(stem: &str) -> String {
    format!("step_{stem}")
}

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
