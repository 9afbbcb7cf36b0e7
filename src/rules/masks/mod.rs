//! Rules about tape and other masks.

pub(super) mod clear_part_frosted;
pub(super) mod mask_for_nothing;
pub(super) mod mask_left_on;
pub(super) mod mask_on_decal;
pub(super) mod mask_on_uncured;
pub(super) mod mask_too_long;
pub(super) mod painted_under_mask;
pub(super) mod unmask_without_mask;
