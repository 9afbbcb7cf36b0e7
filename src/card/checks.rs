//! What is checked about printing.

use crate::report::{Check, Group, Level};

/// Every check of this layer.
pub const CHECKS: &[&Check] = &[&PRINT_FONT, &GLYPH_MISSING, &CAUTION_GLYPH_MISSING];

/// The fonts can be read.
pub(super) static PRINT_FONT: Check = Check {
    id: "print-font",
    level: Level::Error,
    about: "every font in a theme's folder print, or under 'fonts' in guide.yaml, can be read and put into a PDF",
    why: "printed cards would be set in other letters than the guide asks for",
    group: Group::Theme,
    safety: false,
};

/// The fonts have the letters.
pub(super) static GLYPH_MISSING: Check = Check {
    id: "glyph-missing",
    level: Level::Warning,
    about: "the fonts for printing have every letter that stands on a card",
    why: "the printed card shows the letter's number in its place, which nobody can read",
    group: Group::Theme,
    safety: false,
};

/// The fonts have the letters of cautions.
pub(super) static CAUTION_GLYPH_MISSING: Check = Check {
    id: "caution-glyph-missing",
    level: Level::Error,
    about: "the fonts for printing have every letter of an author's own caution",
    why: "somebody could be hurt who can't read the caution on the printed card",
    group: Group::Safety,
    safety: true,
};
