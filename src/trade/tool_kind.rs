//! What a thing on the desk is there for.

use super::choice;

choice! {
    /// The kind of a tool, which decides where the shopping list puts it.
    ToolKind, "a kind of tool" {
        /// Something that lasts.
        Tool = "tool",
        /// Something that is used up.
        Consumable = "consumable",
        /// Something that keeps people safe.
        Protection = "protection",
    }
}
