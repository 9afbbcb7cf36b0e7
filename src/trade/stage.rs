//! The stages of painting a model.

use super::{Reach, choice};

choice! {
    /// What a step does to the model, in the trade's usual order.
    Stage, "a stage" {
        /// Cleaning, washing, filling, mounting.
        Prepare = "prepare",
        /// Gluing together: before the paint, or what was painted apart.
        Assemble = "assemble",
        /// Covering what the next coats must not reach.
        Mask = "mask",
        /// Taking a mask off.
        Unmask = "unmask",
        /// The coat that paint grips on.
        Undercoat = "undercoat",
        /// Light and dark under a thin colour.
        Preshade = "preshade",
        /// The main colour of an area.
        Basecoat = "basecoat",
        /// Dark in the recesses.
        Shade = "shade",
        /// Lighter coats on what stands up.
        Layer = "layer",
        /// Light on the edges.
        Highlight = "highlight",
        /// A thin, clear colour over everything.
        Glaze = "glaze",
        /// Eyes, gems, freehand.
        Detail = "detail",
        /// Transfers.
        Decal = "decal",
        /// Thin dark lines in panel joints.
        PanelWash = "panel-wash",
        /// Worn and scratched paint.
        Chip = "chip",
        /// Rain, rust, grime.
        Weather = "weather",
        /// Dry powders.
        Pigment = "pigment",
        /// A clear protecting coat.
        Varnish = "varnish",
        /// The ground that the model stands on.
        Basing = "basing",
    }
}

impl Stage {
    /// Whether a step of this stage must say which areas it is about.
    pub fn needs_areas(self) -> bool {
        !matches!(self, Self::Prepare | Self::Assemble | Self::Basing)
    }

    /// Whether a step of this stage flows over or dirties what is painted already.
    pub fn weathers(self) -> bool {
        matches!(self, Self::Shade | Self::PanelWash | Self::Weather | Self::Pigment)
    }

    /// Where a step of this stage reaches if it does not say.
    pub fn reach(self) -> Reach {
        match self {
            Self::PanelWash => Reach::Recesses,
            Self::Layer => Reach::Raised,
            Self::Highlight | Self::Chip => Reach::Edges,
            Self::Detail => Reach::Spots,
            _ => Reach::All,
        }
    }
}
