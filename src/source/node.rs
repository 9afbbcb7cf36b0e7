//! YAML as a tree in which every value keeps its place, so that all findings of a file can be told in one run.

use super::cut::Cut;
use crate::report::{Place, Placed};

/// One YAML value.
#[derive(Debug, Clone)]
pub(crate) struct Node {
    /// Where it is in its file.
    pub(crate) place: Place,
    /// What it is.
    pub(crate) value: NodeValue,
    /// What is in the place of a value that is not there: a comment with its `#`, or a mark with its `&` or `!`.
    pub(crate) comment: Option<String>,
    /// The words that a text lost to YAML's signs.
    pub(crate) cut: Option<Box<Cut>>,
    /// Whether only a key stands there, without a colon and without a value.
    pub(crate) bare: bool,
}

/// The shapes a YAML value can have. Every scalar is kept as the text that the author wrote.
#[derive(Debug, Clone)]
pub(crate) enum NodeValue {
    /// Nothing stands behind the key.
    Empty,
    /// A scalar.
    Text(String),
    /// A list.
    List(Vec<Node>),
    /// Keys and values in the author's order; a key may occur twice.
    Map(Vec<(Placed<String>, Node)>),
}

impl Node {
    /// A value at a place.
    pub(crate) fn new(place: Place, value: NodeValue) -> Self {
        Self { place, value, comment: None, cut: None, bare: false }
    }

    /// The text, if it is one.
    pub(crate) fn text(&self) -> Option<&String> {
        if let NodeValue::Text(text) = &self.value { Some(text) } else { None }
    }

    /// What the value is, in words for a message.
    pub(crate) fn shape(&self) -> &'static str {
        match self.value {
            NodeValue::Empty => "nothing",
            NodeValue::Text(_) => "a text",
            NodeValue::List(_) => "a list",
            NodeValue::Map(_) => "a group of keys",
        }
    }
}
