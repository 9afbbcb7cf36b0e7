//! The theme: templates, words, style and fonts. The built-in one is part of the program; a guide's own
//! theme replaces it file by file.

mod built_in;
mod checks;
mod direction;
mod letters;
mod load;
mod money;
mod slim;
mod words;

use std::collections::BTreeMap;
use std::sync::Arc;

pub use checks::{CAUTION_LOST, CHECKS, POLICY_LOST, TEMPLATE};
pub use direction::is_from_right;
pub use letters::{SQUARE_FROM, label_width};
pub use load::{KeptTheme, load};
pub use words::Words;

use crate::report::FileId;

/// A theme, ready to be used.
#[derive(Debug, PartialEq, Eq, Hash)]
pub struct Theme {
    /// The templates by name, each with the file of the guide that it came from, if it is the guide's own.
    pub templates: BTreeMap<String, Template>,
    /// The words of the interface, in the guide's language.
    pub words: Words,
    /// The letters to print with, the guide's own first.
    pub letters: Vec<Letters>,
    /// The files that are published as they are, by their paths in the published folder.
    pub assets: BTreeMap<String, Vec<u8>>,
}

/// A font for printing, as TrueType or OpenType.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Letters {
    /// Where it is in the theme: `print/heading.ttf`, `print/text.ttf`, `print/text-bold.ttf` and `print/label.ttf` have
    /// their parts; one such as `print/heading.greek.ttf` lends letters to its part first, and any other to all.
    pub path: String,
    /// The file.
    pub bytes: Arc<[u8]>,
    /// Whether it is the guide's own.
    pub own: bool,
    /// The letters that it has, rising.
    known: Arc<[u32]>,
}

/// One template.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Template {
    /// Its text.
    pub text: String,
    /// The file of the guide's own theme that it came from.
    pub file: Option<FileId>,
}
