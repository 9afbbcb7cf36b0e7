//! What puts the paint on.

use super::choice;

choice! {
    /// How a step is done.
    Technique, "a technique" {
        /// A wet brush.
        Brush = "brush",
        /// An airbrush.
        Airbrush = "airbrush",
        /// An aerosol can.
        SprayCan = "spray-can",
        /// A torn piece of foam.
        Sponge = "sponge",
        /// A nearly dry brush over what stands up; with `where: all` a heavy one over everything, an overbrush.
        Drybrush = "drybrush",
        /// Dabbing with a stiff brush.
        Stipple = "stipple",
        /// Drops from a pipette.
        Pipette = "pipette",
        /// Rubbing or wiping with a cloth.
        Cloth = "cloth",
        /// Fingers: placing, pressing, fixing.
        Hand = "hand",
        /// A knife or a file.
        Blade = "blade",
    }
}

impl Technique {
    /// Whether the paint flies through the air.
    pub fn sprays(self) -> bool {
        matches!(self, Self::Airbrush | Self::SprayCan)
    }

    /// Whether it does not drag at what it touches: a spray, or a tool that is nearly dry.
    pub fn is_gentle(self) -> bool {
        self.sprays() || matches!(self, Self::Drybrush | Self::Sponge | Self::Stipple)
    }
}
