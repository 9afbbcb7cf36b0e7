//! The plan of an army as text and JSON, and what its evenings ask for.

mod json;
pub(crate) mod planned;
mod text;

pub(crate) use json::plan_json;
pub(crate) use text::plan_text;
