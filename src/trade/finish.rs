//! How a dry paint looks: how much it hides, how it shines.

use super::choice;

choice! {
    /// How well one coat covers what lies beneath.
    Hiding, "a hiding class" {
        /// A middle or dark tone covers a middle ground in one or two coats; light tones over black take more.
        Opaque = "opaque",
        /// A middle or dark tone covers a middle ground in two or three coats; light tones over black take more.
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
