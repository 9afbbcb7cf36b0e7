//! What is in a cupboard, from a file of its own.

use super::node::{Node, NodeValue};
use super::reading::{Reading, Table, Value};
use super::text_file::TextFile;
use super::{Have, Mention, yaml};
use crate::report::{Files, Finding};

/// Reads what is in a cupboard from the bytes of a file: of the shape of `have` in an army's file, with or without that
/// key above it. Of the findings, the places lie in the file, which is added under `path`.
pub fn read_cupboard(path: &str, bytes: &[u8], files: &mut Files) -> (Table<Mention, Have>, Vec<Finding>) {
    let TextFile { text, problem } = TextFile::of(bytes);
    let file = files.add(path, text);
    if let Some(problem) = problem {
        return (Table::default(), vec![problem.finding(file)]);
    }
    let mut reading = Reading::default();
    let node = match yaml::parse(files.text(file), file, 0) {
        Ok(Node { value: NodeValue::Map(entries), place, .. }) => match <[_; 1]>::try_from(entries) {
            Ok([(key, inner)]) if key.value == "have" && matches!(inner.value, NodeValue::Map(_)) => inner,
            Ok(only) => Node::new(place, NodeValue::Map(only.into())),
            Err(entries) => Node::new(place, NodeValue::Map(entries)),
        },
        Ok(node) => node,
        Err(finding) => return (Table::default(), vec![*finding]),
    };
    let cupboard = Table::read(&node, &mut reading).unwrap_or_default();
    (cupboard, reading.into_findings())
}
