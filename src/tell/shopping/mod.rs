//! A shopping list as text, CSV, JSON and Markdown.

mod csv;
mod json;
mod markdown;
mod text;
mod voice;

pub use csv::csv;
pub use json::json;
pub use markdown::markdown;
pub use text::text;
pub use voice::{TRACE, Voice};
