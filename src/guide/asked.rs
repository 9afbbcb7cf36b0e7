//! What was looked up while something was resolved, and what the answer was.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Paint, Tool};

/// The paints and tools that were asked for by their ids, each with what was found.
#[derive(Debug, Default)]
pub(crate) struct Asked {
    /// The paints.
    pub(crate) paints: BTreeMap<String, Option<Arc<Paint>>>,
    /// The tools.
    pub(crate) tools: BTreeMap<String, Option<Arc<Tool>>>,
}
