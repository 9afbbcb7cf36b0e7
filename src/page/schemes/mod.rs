//! Pages and files of one scheme.

pub(super) mod areas;
pub(super) mod card;
pub(super) mod drawn;
pub(super) mod film;
pub(super) mod mix_amounts;
mod other_ways;
pub(super) mod outlook;
mod pots;
pub(super) mod recipe;
pub(super) mod scheme;
pub(super) mod source_page;
pub(super) mod step_page;
pub(super) mod strip;
pub(super) mod surface;
pub(super) mod task;
pub(super) mod versions;
