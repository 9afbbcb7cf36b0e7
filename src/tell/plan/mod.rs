//! The plan of an army as text and JSON, and what its evenings ask for.

mod json;
pub(crate) mod planned;
mod text;

pub use json::plan_json;
pub use text::plan_text;
