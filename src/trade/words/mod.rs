//! The words that painters use for things that are no closed list: what a model is made of, what lies on the desk. They
//! are understood in four languages and in ordinary synonyms, from one table each; rules and cautions ask the same.

mod beside;
mod clear_part;
mod heat;
mod material;
mod meant;
mod mirror;
mod mist;
mod overbrush;
mod plants;
mod powder;
mod preparing;
mod spraying;
mod table;
mod tool;
mod working;

pub use clear_part::names_clear_part;
pub use material::{Material, Materials};
pub use meant::{meanings, meant};
pub use mirror::names_mirror;
pub use mist::names_mist;
pub use overbrush::names_overbrush;
pub use plants::{Planting, grass_in, plantings, speaks_of_grass};
pub use powder::names_powder;
pub use preparing::{Preparing, may_scrape, only_bends, only_washes, preparing};
pub use spraying::sprays_from_a_can;
pub use tool::{ToolWord, glue_sort, is_instant_glue, tool_words, tools_in_sentences, tools_used_in_sentences};
pub use working::{Working, working, working_beside_paint};
