//! The theme: templates, words, style and fonts. The built-in one is part of the program; a guide's own
//! theme replaces it file by file.

mod built_in;
mod checks;
mod load;
mod money;
mod words;

use std::collections::BTreeMap;

pub use checks::{CAUTION_LOST, CHECKS, TEMPLATE};
pub use load::{Kept, load};
pub use words::Words;

use crate::report::FileId;

/// A theme, ready to be used.
#[derive(Debug, PartialEq, Eq)]
pub struct Theme {
    /// The templates by name, each with the file of the guide that it came from, if it is the guide's own.
    pub templates: BTreeMap<String, Template>,
    /// The words of the interface, in the guide's language.
    pub words: Words,
    /// The files that are published as they are, by their paths in the published folder.
    pub assets: BTreeMap<String, Vec<u8>>,
}

/// One template.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Template {
    /// Its text.
    pub text: String,
    /// The file of the guide's own theme that it came from.
    pub file: Option<FileId>,
}
