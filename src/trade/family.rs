//! What carries a paint.

use super::choice;

choice! {
    /// The carrier of a paint: it decides what thins it, what it dissolves, and what it may lie on.
    Family, "a family" {
        /// Water-based acrylic.
        Water = "water",
        /// Alcohol-carried acrylic and clears.
        Alcohol = "alcohol",
        /// Lacquer with a strong solvent.
        Lacquer = "lacquer",
        /// Enamel in white spirit.
        Enamel = "enamel",
        /// Artist's oil.
        Oil = "oil",
        /// Two parts that harden together.
        TwoPack = "two-pack",
        /// What hardens under a lamp.
        Lamp = "lamp",
        /// Dry powder.
        Dry = "dry",
    }
}

impl Family {
    /// Whether it brings a solvent other than water to the desk.
    pub fn is_solvent(self) -> bool {
        matches!(self, Self::Alcohol | Self::Lacquer | Self::Enamel | Self::Oil | Self::TwoPack)
    }
}
