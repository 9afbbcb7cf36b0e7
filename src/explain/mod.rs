//! **Explain**: what a word means that an author meets: a key, a check, a stage, a figure, a caution, a field of JSON.
//!
//! Everything here is taken from where the word is defined, so that a word and its explanation can't drift apart. The
//! reference pages of the demo guide are made from the same entries.

mod entry;
mod fields;
mod files;
mod gather;
mod keys;
mod text;

pub use entry::Topic;
pub use fields::JSON_FIELDS;
pub use gather::entries;
pub use keys::keys;
pub use text::{Answer, ask, overview};
