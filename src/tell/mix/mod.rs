//! One step's mix for a number of models, or a pot for all steps that use it, as text and JSON.

mod pot;
mod sheet;
mod text;

pub(crate) use pot::{PotSheet, names as pot_names};
pub(crate) use sheet::MixSheet;
pub(crate) use text::text;
