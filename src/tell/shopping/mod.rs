//! A shopping list as text, CSV, JSON and Markdown.

mod csv;
mod json;
mod markdown;
mod text;
mod voice;

pub(crate) use csv::csv;
pub(crate) use json::json;
pub(crate) use markdown::markdown;
pub(crate) use text::text;
pub(crate) use voice::Voice;
