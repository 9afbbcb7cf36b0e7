//! A thing on the desk that is not a paint.

use crate::report::Place;
use crate::trade::ToolKind;

/// A tool, a consumable, or something that keeps people safe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tool {
    /// The id by which steps name it.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// What it is there for.
    pub kind: ToolKind,
    /// Anything worth knowing.
    pub note: Option<String>,
    /// Where it is listed, or first named.
    pub place: Place,
    /// Whether `tools.yaml` lists it.
    pub listed: bool,
}
