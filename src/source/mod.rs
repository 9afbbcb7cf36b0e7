//! **Read**: from the guide's files to typed records, every value with its place.
//!
//! This layer and the last one are the only ones that pass the [door](crate::door). Reading always gives
//! a [`Source`]: what can't be read is told as a finding and left out.

mod checks;
pub mod file;
mod front_matter;
mod layout;
mod node;
mod read;
mod reading;
mod record;
mod scalar;
mod schema;
mod shape;
mod texts;
mod yaml;

use std::collections::BTreeSet;

pub use checks::CHECKS;
pub use read::{LARGEST_TEXT, read, read_cupboard};
pub use reading::Table;
pub use scalar::{Currency, Flag, Have, HazardCode, Id, VideoTime, WebAddress};
pub use schema::{SchemaOf, schema};
pub use shape::{Field, Shape};
pub use texts::flat_texts;

use crate::report::{FileId, Files, Finding};

/// Everything that a guide's folder says, before names are looked up.
#[derive(Debug, Default)]
pub struct Source {
    /// The text files.
    pub files: Files,
    /// `guide.yaml`, if it could be read.
    pub guide: Option<file::GuideFile>,
    /// Where `guide.yaml` stands, or would stand.
    pub guide_file: FileId,
    /// The ranges of paints.
    pub paints: Vec<file::PaintsFile>,
    /// `tools.yaml`.
    pub tools: Option<file::ToolsFile>,
    /// The schemes, by their slugs.
    pub schemes: Vec<SchemeSource>,
    /// The armies.
    pub armies: Vec<Named<file::ArmyFile>>,
    /// The free pages.
    pub pages: Vec<Named<Document<file::PageFile>>>,
    /// The paths of all other files in the content folder, from that folder: pictures and whatever else a text may link to.
    pub others: BTreeSet<String>,
    /// The paths of files, from the content folder, of which nothing could be read: they are there, so a name that
    /// should stand in one of them is not told as missing a second time.
    pub unread: BTreeSet<String>,
    /// What was found while reading.
    pub findings: Vec<Finding>,
}

/// The files of one scheme.
#[derive(Debug)]
pub struct SchemeSource {
    /// The name of its folder.
    pub slug: String,
    /// `scheme.md`.
    pub scheme: Document<file::SchemeFile>,
    /// The steps, in the order of their numbers.
    pub steps: Vec<StepSource>,
}

/// The file of one step.
#[derive(Debug)]
pub struct StepSource {
    /// The file's name without its ending, as in `30-pale-gold`.
    pub stem: String,
    /// What stands in it.
    pub document: Document<file::StepFile>,
}

/// A file by the name that others know it under.
#[derive(Debug)]
pub struct Named<T> {
    /// The file's name without its ending.
    pub slug: String,
    /// The file.
    pub file: FileId,
    /// What stands in it.
    pub record: T,
}

/// A Markdown file: its front matter, and where its body begins.
#[derive(Debug, Clone)]
pub struct Document<T> {
    /// The file.
    pub file: FileId,
    /// The front matter.
    pub front: T,
    /// The byte at which the body begins.
    pub body_start: usize,
}
