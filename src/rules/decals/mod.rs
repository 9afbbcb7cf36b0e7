//! Rules about decals.

pub(super) mod decal_needs_gloss;
pub(super) mod decal_not_cured;
pub(super) mod decal_on_dirt;
pub(super) mod decal_painted_over;
pub(super) mod decal_sealed_wet;
pub(super) mod decal_unsealed;
