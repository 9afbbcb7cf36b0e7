//! **Tell**: every result as text, JSON, CSV, Markdown or calendar. Nothing is worked out here, and nothing is a page:
//! where a file names a page of the site, its address is handed in.

pub(crate) mod calendar;
pub(crate) mod called;
pub(crate) mod cautions;
pub(crate) mod chapters;
pub(crate) mod compare;
pub(crate) mod facts;
pub(crate) mod matching;
pub(crate) mod mix;
pub(crate) mod plan;
pub(crate) mod recipe;
pub(crate) mod shopping;
pub(crate) mod spoken;
pub(crate) mod swatch;
