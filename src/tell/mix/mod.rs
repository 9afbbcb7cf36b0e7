//! One step's mix for a number of models, as text and JSON.

mod sheet;
mod text;

pub(crate) use sheet::Sheet;
pub(crate) use text::text;
