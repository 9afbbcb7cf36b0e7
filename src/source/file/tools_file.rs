//! `tools.yaml`: what stands on the desk beside the paints.

use super::super::node::Node;
use super::super::reading::{Reading, Table, Value};
use super::super::shape::Shape;
use crate::measure::{Count, Fraction, Money};
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
        /// Of what is used up: how many pieces each model takes, over all steps that name it.
        optional per_model: Fraction = "3",
        /// How many pieces are in a pack.
        optional pack: Count = "40",
        /// What a pack costs, or a single piece where it is sold singly.
        optional price: Money = "4.50",
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
    /// How many pieces each model takes.
    pub per_model: Option<Placed<Fraction>>,
    /// How many are in a pack.
    pub pack: Option<Placed<Count>>,
    /// What a pack costs.
    pub price: Option<Placed<Money>>,
    /// Anything worth knowing.
    pub note: Option<Placed<String>>,
}

impl Value for ToolEntry {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        if matches!(node.value, NodeValue::Text(_)) {
            let name = Placed::<String>::read(node, reading)?;
            return Some(Self { name: Some(name), ..Self::default() });
        }
        let ToolRecord { name, kind, per_model, pack, price, note, .. } = ToolRecord::read(node, reading)?;
        Some(Self { name, kind, per_model, pack, price, note })
    }

    fn shape() -> Shape {
        Shape::Either(Box::new(String::shape()), Box::new(ToolRecord::shape()))
    }
}
