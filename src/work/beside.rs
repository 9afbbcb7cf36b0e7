//! What a step uses up beside its mix.

use std::sync::Arc;

use crate::guide::Paint;
use crate::quantity::{Purpose, StepNeed};

/// What a step uses up beside its mix, such as cleaner, and for what; where the guide has a product for that.
pub fn beside(need: &StepNeed) -> impl Iterator<Item = (Purpose, &Arc<Paint>)> {
    need.extras.iter().filter_map(|extra| Some((extra.purpose, extra.product.as_ref()?)))
}
