//! Rules about chipping with a resist.

pub(super) mod chipped;
pub(super) mod chipping_not_done;
pub(super) mod chipping_residue;
pub(super) mod chipping_too_early;
pub(super) mod chipping_too_late;
pub(super) mod chipping_too_thick;
pub(super) mod chipping_under_hard_coat;
pub(super) mod chipping_unsealed;
pub(super) mod chipping_without_resist;
