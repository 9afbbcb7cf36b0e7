//! What one text file turned out to be: a record, and what was found while it was read.

use std::sync::Arc;

use super::file::{
    ArmyFile, GuideFile, PageFile, PaintsFile, SchemeFile, SequenceFile, SequenceUse, StepFile, ToolsFile,
};
use super::layout::Part;
use super::node::{Node, NodeValue};
use super::reading::{Reading, Value};
use super::{Document, checks, front_matter, yaml};
use crate::report::{FileId, Finding, Place};

/// What one file turned out to be.
#[derive(Debug)]
pub(super) struct Parsed {
    /// The record.
    pub(super) content: Content,
    /// What was found.
    pub(super) findings: Vec<Finding>,
}

/// The record of a file, shared by every run in which the file is the same.
#[derive(Debug, Clone)]
pub(super) enum Content {
    /// `guide.yaml`.
    Guide(Arc<GuideFile>),
    /// `tools.yaml`.
    Tools(Arc<ToolsFile>),
    /// A range of paints.
    Paints(Arc<PaintsFile>),
    /// A scheme.
    Scheme(Arc<Document<SchemeFile>>),
    /// A step.
    Step(Arc<Document<StepFile>>),
    /// What stands for a sequence among the steps of a scheme.
    Use(Arc<Document<SequenceUse>>),
    /// A sequence.
    Sequence(Arc<Document<SequenceFile>>),
    /// An army.
    Army(Arc<ArmyFile>),
    /// A free page.
    Page(Arc<Document<PageFile>>),
    /// Nothing could be read.
    Nothing,
}

impl Parsed {
    /// Reads the text of a file that is such a part of a guide.
    pub(super) fn of(text: &str, file: FileId, part: &Part) -> Self {
        let mut reading = Reading::default();
        let content = Self::content(text, file, part, &mut reading).unwrap_or(Content::Nothing);
        Self { content, findings: reading.into_findings() }
    }

    /// What a file is of which no text can be used.
    pub(super) fn nothing(finding: Finding) -> Self {
        Self { content: Content::Nothing, findings: vec![finding] }
    }

    fn content(text: &str, file: FileId, part: &Part, reading: &mut Reading) -> Option<Content> {
        match part {
            Part::Stray(hint) => {
                let message = "nothing looks for a file in this place";
                reading.tell(Finding::new(&checks::NOT_READ, Place::top_of(file), message, *hint));
                None
            }
            _ if text.is_empty() && !matches!(part, Part::Guide) => {
                let mend = "write it, or delete the file";
                reading.tell(Finding::new(&checks::FOLDER, Place::top_of(file), "this file is empty", mend));
                None
            }
            Part::Guide => record(text, file, reading).map(Arc::new).map(Content::Guide),
            Part::Tools => record(text, file, reading).map(Arc::new).map(Content::Tools),
            Part::Paints => record(text, file, reading).map(Arc::new).map(Content::Paints),
            Part::Army(_) => record(text, file, reading).map(Arc::new).map(Content::Army),
            Part::Scheme(_) => document(text, file, reading).map(Arc::new).map(Content::Scheme),
            Part::Step(..) if names_sequence(text, file) => {
                document(text, file, reading).map(Arc::new).map(Content::Use)
            }
            Part::Step(..) | Part::SequenceStep(..) => document(text, file, reading).map(Arc::new).map(Content::Step),
            Part::Sequence(_) => document(text, file, reading).map(Arc::new).map(Content::Sequence),
            Part::Page(_) => document(text, file, reading).map(Arc::new).map(Content::Page),
            Part::Other => None,
        }
    }
}

/// Whether the keys at the top of a file name a sequence.
fn names_sequence(text: &str, file: FileId) -> bool {
    // Most steps have no such word: nothing is parsed twice for them.
    let halves = front_matter::split(text).filter(|halves| halves.yaml.contains("sequence"));
    let node = halves.and_then(|halves| yaml::parse(halves.yaml, file, halves.yaml_start).ok());
    matches!(node, Some(Node { value: NodeValue::Map(pairs), .. }) if pairs.iter().any(|(key, _)| key.value == "sequence"))
}

/// A whole file of YAML.
fn record<T: Value>(text: &str, file: FileId, reading: &mut Reading) -> Option<T> {
    read_yaml(text, file, 0, reading)
}

/// A Markdown file. Where its front matter can't be read, the rest of the guide goes on without it.
fn document<T: Value>(text: &str, file: FileId, reading: &mut Reading) -> Option<Document<T>> {
    let Some(halves) = front_matter::split(text) else {
        let message = if text.starts_with("---") {
            "the keys at the top have no end"
        } else {
            "this file has no keys at the top"
        };
        let mend = "put the keys at the very top, between two lines that hold nothing but '---'";
        reading.tell(Finding::new(&checks::FRONT_MATTER, Place::top_of(file), message, mend));
        return None;
    };
    let front = read_yaml(halves.yaml, file, halves.yaml_start, reading)?;
    Some(Document { file, front, body_start: halves.body_start })
}

fn read_yaml<T: Value>(text: &str, file: FileId, offset: usize, reading: &mut Reading) -> Option<T> {
    match yaml::parse(text, file, offset) {
        Ok(Node { value: NodeValue::Empty, .. }) => {
            let empty = Node::new(Place::new(file, offset, offset), NodeValue::Map(Vec::new()));
            T::read(&empty, reading)
        }
        Ok(node) => T::read(&node, reading),
        Err(finding) => {
            reading.tell(*finding);
            None
        }
    }
}
