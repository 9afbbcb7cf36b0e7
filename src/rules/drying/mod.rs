//! Rules about waits, solvents and thickness.

pub(super) mod blend_dries_first;
pub(super) mod depth_of_paint;
pub(super) mod dry_too_short;
pub(super) mod over_uncured;
pub(super) mod poured_too_deep;
pub(super) mod strong_solvent_over_weak;
pub(super) mod too_thick;
pub(super) mod wait_too_short;
pub(super) mod young;
