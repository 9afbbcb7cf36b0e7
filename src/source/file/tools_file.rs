//! `tools.yaml`: what is on the desk beside the paints.

use super::super::node::Node;
use super::super::reading::{Reading, Table, Value};
use super::super::shape::Shape;
use crate::report::Placed;
use crate::source::node::NodeValue;
use crate::source::record::record;
use crate::source::scalar::Id;
use crate::trade::ToolKind;

record! {
    /// The tools and consumables of the guide.
    pub ToolsFile, "tools.yaml" {
        /// The tools by their ids.
        needed tools: Table<Id, ToolEntry> = "{fine-airbrush: Airbrush with a 0.2 mm needle}",
    }
}

record! {
    /// The long form of a tool.
    ToolRecord, "a tool" {
        /// What it is called.
        needed name: String = "Airbrush with a 0.2 mm needle",
        /// Whether it lasts, is used up, or keeps people safe.
        optional kind: ToolKind,
        /// Anything worth knowing.
        optional note: String = "Clean it between colours.",
    }
}

/// One tool: its name alone, or with its kind and a note.
#[derive(Debug, Clone, Default)]
pub struct ToolEntry {
    /// What it is called.
    pub name: Option<Placed<String>>,
    /// What it is there for.
    pub kind: Option<Placed<ToolKind>>,
    /// Anything worth knowing.
    pub note: Option<Placed<String>>,
}

impl Value for ToolEntry {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        if matches!(node.value, NodeValue::Text(_)) {
            let name = Placed::<String>::read(node, reading)?;
            return Some(Self { name: Some(name), ..Self::default() });
        }
        let ToolRecord { name, kind, note, .. } = ToolRecord::read(node, reading)?;
        Some(Self { name, kind, note })
    }

    fn shape() -> Shape {
        Shape::Either(Box::new(String::shape()), Box::new(ToolRecord::shape()))
    }
}
