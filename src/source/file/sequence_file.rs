//! `sequences/<slug>/sequence.md`, and the file in a scheme that stands for all of its steps.

use crate::report::Placed;
use crate::source::node::{Node, NodeValue};
use crate::source::reading::{Reading, Table, Value};
use crate::source::record::record;
use crate::source::scalar::{Id, Mention, When};
use crate::source::shape::Shape;

record! {
    /// One sequence: steps that are written once and used in many schemes.
    pub SequenceFile, "a sequence" {
        /// What the sequence is called.
        needed title: String = "Plain leather",
        /// One sentence on what it gives.
        optional summary: String = "Brown straps with worn edges.",
        /// The areas that its steps name; `all` in a step is all of these. Without it the steps are about the whole model.
        optional areas: Vec<Placed<Id>> = "[leather]",
    }
}

record! {
    /// A file among the steps of a scheme that stands for all steps of a sequence. Its text is put before the first of them.
    pub SequenceUse, "a step that stands for a sequence" {
        /// The sequence, by the name of its folder.
        needed sequence: Mention = "leather",
        /// What is put before the titles of its steps, where the scheme uses the sequence more than once.
        optional title: String = "Saddle",
        /// The areas of the scheme in place of each area of the sequence; a plain list where that has only one. Without it
        /// they are called the same.
        optional areas: UseAreas = "{leather: [straps, boots]}",
        /// Other paints or pots in place of the sequence's.
        optional instead: Table<Id, Placed<Mention>> = "{otter-strap: bog-iron}",
        /// Steps of the sequence that are left out.
        optional without: Vec<Placed<Mention>> = "[30-worn-edges]",
        /// The variants of the scheme that have these steps, and no others.
        optional only_for: Vec<Placed<Mention>> = "[night-watch]",
        /// The variants of the scheme that do without these steps.
        optional not_for: Vec<Placed<Mention>> = "[night-watch]",
        /// When these steps may be left out, as a sentence.
        optional optional: When,
    }
}

/// The areas of a scheme that a sequence is used on.
#[derive(Debug, Clone)]
pub enum UseAreas {
    /// Where the sequence has one area.
    One(Vec<Placed<Mention>>),
    /// For each area of the sequence.
    Each(Table<Id, Vec<Placed<Mention>>>),
}

impl Value for UseAreas {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        match node.value {
            NodeValue::Map(_) => Table::read(node, reading).map(Self::Each),
            _ => Vec::read(node, reading).map(Self::One),
        }
    }

    fn shape() -> Shape {
        Shape::Either(Box::new(Vec::<Placed<Mention>>::shape()), Box::new(Table::<Id, Vec<Placed<Mention>>>::shape()))
    }
}
