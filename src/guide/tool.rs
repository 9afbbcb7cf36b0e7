//! A thing on the desk that is not a paint.

use crate::measure::{Fraction, Money};
use crate::report::Place;
use crate::trade::ToolKind;

/// A tool, a consumable, or something that keeps people safe.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Tool {
    /// The id by which steps name it.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// What it is there for.
    pub kind: ToolKind,
    /// Of what is used up: how many pieces each model takes.
    pub per_model: Option<Fraction>,
    /// How many pieces are in a pack.
    pub pack: Option<u32>,
    /// What a pack costs, or a piece where it is sold singly.
    pub price: Option<Money>,
    /// Anything worth knowing.
    pub note: Option<String>,
    /// Where it is listed, or first named.
    pub place: Place,
    /// Whether `tools.yaml` lists it.
    pub listed: bool,
}
