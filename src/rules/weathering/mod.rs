//! Rules about enamel, oil and pigment over the finished colours.

pub(super) mod enamel_on_unsealed;
pub(super) mod fixer_before_powder;
pub(super) mod pigment_on_gloss;
pub(super) mod pigment_under_brush;
pub(super) mod pigment_unfixed;
pub(super) mod pin_wash_on_matt;
pub(super) mod weathering_order;
