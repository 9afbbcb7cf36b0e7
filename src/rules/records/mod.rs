//! Checks of what a guide names and what it leaves out.

pub(super) mod area_unpainted;
pub(super) mod area_unused;
pub(super) mod base_missing;
pub(super) mod bench_key;
pub(super) mod bench_zero;
pub(super) mod material_unknown;
pub(super) mod minutes_missing;
pub(super) mod paint_unused;
pub(super) mod tool_unused;
pub(super) mod unfinished;
pub(super) mod video_missing;
