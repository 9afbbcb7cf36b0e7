//! **Read**: from the guide's files to typed records, every value with its place.
//!
//! This layer and the last one are the only ones that pass the [door](crate::door). Reading always gives
//! a [`Source`]: what can't be read is reported as a finding and left out.

pub(crate) mod checks;
mod comma;
mod comment;
mod cupboard;
mod cut;
mod early;
mod expand;
pub mod file;
mod front_matter;
mod kept;
mod key_words;
mod layout;
mod lists;
mod names;
mod node;
mod parsed;
mod quote;
mod read;
mod reading;
mod record;
mod scalar;
mod schema;
mod shape;
mod size;
mod slips;
mod strays;
mod text_file;
mod texts;
mod versions;
mod yaml;

use std::collections::BTreeSet;
use std::sync::Arc;

pub use checks::CHECKS;
pub use cupboard::read_cupboard;
pub use kept::KeptSource;
pub use read::{read, read_again, step_number};
pub use reading::{Table, Tried};
pub use scalar::{Have, HazardCode, Id, Mention, VideoTime, WebAddress, When};
pub use schema::{SchemaOf, schema};
pub use shape::{Field, Shape};
pub use text_file::LARGEST_TEXT;
pub use texts::flat_texts;
pub use versions::{Version, asked_by, named, place_of};

use crate::report::{FileId, Files, Finding, Place, Placed};

/// Everything that a guide's folder says, before names are looked up.
#[derive(Debug, Default)]
pub struct Source {
    /// The text files.
    pub files: Files,
    /// `guide.yaml`, if it could be read.
    pub guide: Option<Arc<file::GuideFile>>,
    /// Where `guide.yaml` is, or would be.
    pub guide_file: FileId,
    /// The ranges of paints.
    pub paints: Vec<Arc<file::PaintsFile>>,
    /// `tools.yaml`.
    pub tools: Option<Arc<file::ToolsFile>>,
    /// The schemes, by their slugs.
    pub schemes: Vec<SchemeSource>,
    /// The sequences, by their slugs.
    pub sequences: Vec<SequenceSource>,
    /// The armies.
    pub armies: Vec<Named<Arc<file::ArmyFile>>>,
    /// The free pages.
    pub pages: Vec<Named<Arc<Document<file::PageFile>>>>,
    /// The paths of all other files in the content folder, from that folder: pictures and whatever else a text may link to.
    pub others: BTreeSet<String>,
    /// The paths of files, from the content folder, of which nothing could be read: they are there, so a name that
    /// should stand in one of them is not told as missing a second time.
    pub unread: BTreeSet<String>,
    /// The letters of the text files that are neither Latin nor usual signs, by which fonts are chosen.
    pub letters: BTreeSet<char>,
    /// What was found while reading.
    pub findings: Vec<Finding>,
}

/// The files of one scheme.
#[derive(Debug, Clone)]
pub struct SchemeSource {
    /// The name of its folder.
    pub slug: String,
    /// `scheme.md`.
    pub scheme: Arc<Document<file::SchemeFile>>,
    /// The steps, in the order of their numbers.
    pub steps: Vec<StepSource>,
    /// The files among them that stand for a sequence.
    pub uses: Vec<FileId>,
    /// What sets it apart from the scheme as it is.
    pub version: Version,
    /// The names of the scheme's steps that are not among its own.
    pub left_out: Vec<String>,
}

/// The files of one sequence.
#[derive(Debug, Clone)]
pub struct SequenceSource {
    /// The name of its folder.
    pub slug: String,
    /// `sequence.md`.
    pub document: Arc<Document<file::SequenceFile>>,
    /// The steps, in the order of their numbers.
    pub steps: Vec<StepSource>,
}

/// How a step of a sequence came into a scheme.
#[derive(Debug, Clone)]
pub struct Borrowed {
    /// The slug of the sequence.
    pub sequence: String,
    /// Its own file.
    pub of: Arc<Document<file::SequenceFile>>,
    /// The file of the scheme that stands for it.
    pub document: Arc<Document<file::SequenceUse>>,
    /// The name of that file without its ending.
    pub stem: String,
    /// The name of the step's file in the sequence.
    pub own: String,
    /// Whether it is the first step of the sequence in the scheme.
    pub first: bool,
}

impl Borrowed {
    fn is_same(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.of, &other.of) && Arc::ptr_eq(&self.document, &other.document) && self.stem == other.stem
    }
}

/// The file of one step.
#[derive(Debug, Clone)]
pub struct StepSource {
    /// The file's name without its ending, as in `30-pale-gold`.
    pub stem: String,
    /// What is in it.
    pub document: Arc<Document<file::StepFile>>,
    /// How it came here, where it is one of a sequence.
    pub by: Option<Borrowed>,
}

impl StepSource {
    fn is_same(&self, other: &Self) -> bool {
        let same_use = match (&self.by, &other.by) {
            (Some(one), Some(other)) => one.is_same(other),
            (None, None) => true,
            _ => false,
        };
        same_use && Arc::ptr_eq(&self.document, &other.document)
    }
}

impl SchemeSource {
    /// Whether all of its files are those of another reading; a file that changed is another one.
    pub fn is_same(&self, other: &Self) -> bool {
        let same_step = |(one, other): (&StepSource, &StepSource)| one.is_same(other);
        self.slug == other.slug
            && self.version == other.version
            && self.left_out == other.left_out
            && Arc::ptr_eq(&self.scheme, &other.scheme)
            && self.steps.len() == other.steps.len()
            && self.steps.iter().zip(&other.steps).all(same_step)
    }
}

impl Source {
    /// Whether every file of a scheme or a sequence could be read: what none of them names is named nowhere then.
    pub fn has_all_schemes(&self) -> bool {
        !self.unread.iter().any(|path| path.starts_with("schemes/") || path.starts_with("sequences/"))
    }

    /// The place of an id in a list of paints or tools, under a name that outlives changes of the lines before it.
    pub fn marked(&self, id: &Placed<Id>) -> Place {
        self.files.marked(&mark_name(self.files.path(id.place.file), &id.value)).unwrap_or(id.place)
    }
}

/// Whether a file at a path of the content folder is read.
#[cfg(test)]
pub(crate) fn is_read_there(path: &str) -> bool {
    layout::Part::of(path).is_read()
}

/// The name of the mark for an id in a file.
fn mark_name(path: &str, id: &Id) -> String {
    format!("{path}#{}", id.0)
}

/// A file by the name that others know it under.
#[derive(Debug)]
pub struct Named<T> {
    /// The file's name without its ending.
    pub slug: String,
    /// The file.
    pub file: FileId,
    /// What is in it.
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
