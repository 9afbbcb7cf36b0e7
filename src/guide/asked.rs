//! What was looked up while something was resolved, and what the answer was.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::anchors::Anchors;
use super::{Paint, Pot, Tool};

/// What was asked for by its name, each with what was found.
#[derive(Debug, Default)]
pub(crate) struct Lookups {
    /// The paints.
    pub(crate) paints: BTreeMap<String, Option<Arc<Paint>>>,
    /// The paints that were looked for by what their labels call them.
    pub(crate) called: BTreeMap<String, Option<Arc<Paint>>>,
    /// The tools.
    pub(crate) tools: BTreeMap<String, Option<Arc<Tool>>>,
    /// The pots of the guide.
    pub(crate) pots: BTreeMap<String, Option<Arc<Pot>>>,
    /// The anchors of texts, by the paths of their files from the content folder.
    pub(crate) anchors: BTreeMap<String, Option<Arc<Anchors>>>,
}
