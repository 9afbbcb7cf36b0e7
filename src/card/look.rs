//! How a text on a card looks.

use super::voice::Voice;
use crate::measure::Colour;

/// How a text looks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Look {
    /// Which font it asks for.
    pub(super) voice: Voice,
    /// Its size, in points.
    pub(super) size: f32,
    /// From line to line, in points.
    pub(super) leading: f32,
    /// Its colour.
    pub(super) colour: Colour,
}

impl Look {
    /// A look with a leading of 1.25.
    pub(super) const fn new(voice: Voice, size: f32, colour: Colour) -> Self {
        Self { voice, size, leading: size * 1.25, colour }
    }
}

/// A piece of a paragraph in one look.
pub(super) type Span<'a> = (&'a str, Look);
