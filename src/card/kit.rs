//! What cards are made with.

use super::fonts::Fonts;
use crate::theme::Words;

/// What cards are made with: the fonts and the words of the theme.
#[derive(Debug, Clone, Copy)]
pub struct Kit<'a> {
    /// The fonts.
    pub fonts: &'a Fonts,
    /// The words of the interface.
    pub words: &'a Words,
}
