//! The paints, or mixes of two, that come nearest to a paint, as text and JSON.

mod json;
mod text;

use std::sync::Arc;

use crate::guide::Paint;
use crate::nearest::{Blend, Near};

pub(crate) use json::json;
pub(crate) use text::text;

/// The answer, before it is shown.
#[derive(Debug)]
pub(crate) struct Answer {
    /// The paint that was asked about.
    pub(crate) paint: Arc<Paint>,
    /// The currency of its guide.
    pub(crate) currency: Option<String>,
    /// The currency of the guide that the others are from.
    pub(crate) other_currency: Option<String>,
    /// The nearest paints.
    pub(crate) nearest: Vec<Near>,
    /// The nearest mixes; `None` where they were not asked for.
    pub(crate) mixes: Option<Vec<Blend>>,
}
