//! What one text file turned out to be: a record, and what was found while it was read.

use std::sync::Arc;

use super::file::{
    ArmyFile, GuideFile, PageFile, PaintsFile, SchemeFile, SequenceFile, SequenceUse, StepFile, ToolsFile,
};
use super::layout::Part;
use super::node::{Node, NodeValue};
use super::reading::{Reading, Value};
use super::strays::Held;
use super::{Document, checks, early, front_matter, yaml};
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
    /// What a file holds that nothing looks for.
    Strayed(Arc<Held>),
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
            Part::Stray(stray) => Some(Content::Strayed(Arc::new(Held::of(text, file, stray)))),
            Part::Misnamed(folder, _, name) => {
                let kind = folder.trim_end_matches('s');
                let message = format!("the own file of a {kind} is called '{name}', and this one is not quite");
                reading.tell(Finding::new(
                    &checks::FOLDER,
                    Place::top_of(file),
                    message,
                    format!("rename it to '{name}'"),
                ));
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
            Part::Step(..) if sequence_key(text, file).is_some() => {
                document(text, file, reading).map(Arc::new).map(Content::Use)
            }
            Part::SequenceStep(..) if let Some(place) = sequence_key(text, file) => {
                let message = "a sequence can't hold another one";
                let mend = "name both sequences in the scheme, each in a file of its own among the steps";
                reading.tell(Finding::new(&checks::UNKNOWN_KEY, place, message, mend));
                None
            }
            Part::Step(..) | Part::SequenceStep(..) => document(text, file, reading).map(Arc::new).map(Content::Step),
            Part::Sequence(_) => document(text, file, reading).map(Arc::new).map(Content::Sequence),
            Part::Page(_) => document(text, file, reading).map(Arc::new).map(Content::Page),
            Part::Other => None,
        }
    }
}

/// Where the keys at the top of a file name a sequence, if they do.
fn sequence_key(text: &str, file: FileId) -> Option<Place> {
    // Most steps have no such word: nothing is parsed twice for them.
    let halves = front_matter::split(text).filter(|halves| halves.yaml.contains("sequence"))?;
    let node = yaml::parse(halves.yaml, file, halves.yaml_start).ok()?;
    let NodeValue::Map(pairs) = &node.value else { return None };
    pairs.iter().find(|(key, _)| key.value == "sequence").map(|(key, _)| key.place)
}

/// A whole file of YAML.
fn record<T: Value>(text: &str, file: FileId, reading: &mut Reading) -> Option<T> {
    read_yaml(text, file, 0, reading)
}

/// A Markdown file. Where its front matter can't be read, the rest of the guide goes on without it.
fn document<T: Value>(text: &str, file: FileId, reading: &mut Reading) -> Option<Document<T>> {
    let Some(halves) = front_matter::split(text) else {
        reading.tell(without_keys(text, file));
        return None;
    };
    if let Some(meant) = early::find(text, &halves, T::shape().fields(), file) {
        reading.tell(meant.finding);
        let front = read_yaml(&meant.yaml, file, halves.yaml_start, reading)?;
        return Some(Document { file, front, body_start: meant.body_start });
    }
    let front = read_yaml(halves.yaml, file, halves.yaml_start, reading)?;
    Some(Document { file, front, body_start: halves.body_start })
}

/// Why a Markdown file has no keys that can be read.
fn without_keys(text: &str, file: FileId) -> Finding {
    let bare = |line: &str| line.trim_end().to_owned();
    let first = text.lines().next().map(bare).unwrap_or_default();
    let is_near =
        |line: &str| line.trim() != "---" && line.trim().chars().count() > 1 && line.trim().chars().all(is_dash);
    let ends = |line: &str| line == "..." || line == "---" || (is_near(line) && line.starts_with(is_dash));
    let closing = || {
        let mut lines = text.lines().skip(1).map(bare);
        lines.find(|line| ends(line) || !early::is_of_keys(line)).filter(|line| ends(line))
    };
    let (message, mend) = if first == "---" {
        match closing() {
            Some(line) => (
                "the keys at the top have no end".to_owned(),
                format!("write '---' in place of '{line}' after the last key, with nothing before or after it"),
            ),
            None => ("the keys at the top have no end".to_owned(), BETWEEN.to_owned()),
        }
    } else if is_near(&first) || first.trim() == "---" {
        let message = format!("the first line is '{first}', and keys begin after a line '---'");
        (message, "write '---' there, three hyphens and nothing else".to_owned())
    } else {
        ("this file has no keys at the top".to_owned(), BETWEEN.to_owned())
    };
    Finding::new(&checks::FRONT_MATTER, Place::top_of(file), message, mend)
}

/// Where keys stand.
const BETWEEN: &str = "put the keys at the very top, between two lines that hold nothing but '---'";

/// Whether a letter may be meant for one of the hyphens of `---`.
fn is_dash(letter: char) -> bool {
    matches!(letter, '-' | '–' | '—' | '−' | '‑')
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::Files;

    #[test]
    fn a_sequence_in_a_sequence_is_told_once() {
        let text = "---\nsequence: other\n---\n";
        let file = Files::default().add("content/sequences/a/10-b.md", text);
        let parsed = Parsed::of(text, file, &Part::SequenceStep("a".to_owned(), "10-b".to_owned()));
        let messages: Vec<&str> = parsed.findings.iter().map(|finding| finding.message.as_str()).collect();
        assert_eq!(messages, ["a sequence can't hold another one"]);
    }

    #[test]
    fn a_line_that_is_not_quite_the_one_around_the_keys_is_named() {
        let file = Files::default().add("content/pages/a.md", "");
        for (text, says, mend) in [
            ("----\ntitle: A\n---\n", "the first line is '----'", "three hyphens"),
            (" ---\ntitle: A\n---\n", "the first line is ' ---'", "three hyphens"),
            ("———\ntitle: A\n---\n", "the first line is '———'", "three hyphens"),
            ("---\ntitle: A\n...\n", "have no end", "in place of '...'"),
            ("---\ntitle: A\n----\n", "have no end", "in place of '----'"),
            ("---\ntitle: A\n\nText.\n\n----\n", "have no end", "at the very top"),
            ("---\ncard: |\n  ----\ntitle: A\n", "have no end", "at the very top"),
            ("---\ntags:\n-\n", "have no end", "at the very top"),
            ("-\ntitle: A\n", "no keys at the top", "at the very top"),
            ("---\ntitle: A\n", "have no end", "at the very top"),
            ("title: A\n", "no keys at the top", "at the very top"),
        ] {
            let finding = without_keys(text, file);
            assert!(finding.message.contains(says) && finding.mend.contains(mend), "{text}: {finding:?}");
        }
    }
}
