//! **Tell**: every result as text, JSON, CSV, Markdown or calendar. Nothing is worked out here, and nothing is a page:
//! where a file names a page of the site, its address is handed in.

pub mod calendar;
pub(crate) mod cautions;
pub mod chapters;
pub(crate) mod compare;
pub mod facts;
pub(crate) mod matching;
pub(crate) mod mix;
pub mod plan;
pub mod recipe;
pub mod shopping;
pub(crate) mod swatch;
