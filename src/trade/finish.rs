//! How a dry paint looks: how much it hides, how it shines.

use super::choice;

choice! {
    /// How well one coat covers what lies beneath.
    Hiding, "a hiding class" {
        /// Covers in one or two coats.
        Opaque = "opaque",
        /// Covers in two or three coats.
        SemiOpaque = "semi-opaque",
        /// Tints strongly.
        SemiTransparent = "semi-transparent",
        /// Lets the ground through.
        Transparent = "transparent",
    }
}

choice! {
    /// How the dry film shines.
    Sheen, "a sheen" {
        /// Below 10 gloss units at 60 degrees (ISO 2813).
        Matt = "matt",
        /// 10 to 70 gloss units.
        Satin = "satin",
        /// Above 70 gloss units.
        Gloss = "gloss",
        /// Shines by metal flakes.
        Metallic = "metallic",
    }
}
