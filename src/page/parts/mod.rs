//! What several kinds of pages are made of.

pub(super) mod address;
pub(super) mod bare;
pub(super) mod caution_box;
mod columns;
pub(super) mod frame;
pub(super) mod gear_box;
pub(super) mod line;
pub(super) mod picture;
pub(super) mod prose;
