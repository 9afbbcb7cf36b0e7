//! The dangers that a step may hold, each with a stable id.

use serde::{Deserialize, Deserializer, de};

use crate::measure::FromText;
use crate::trade::choice;

choice! {
    /// One danger, in the order in which cautions are shown: the air first, then fire, hands, people around.
    CautionKind, "a caution" {
        /// Droplets in the air, of water-based paint too.
        SprayMist = "spray-mist",
        /// Solvent in the air: fire, and vapour that a dust mask lets through.
        SpraySolvent = "spray-solvent",
        /// A can under pressure.
        AerosolCan = "aerosol-can",
        /// Solvent on the desk: vapour, fire, swallowing, the drain.
        Solvent = "solvent",
        /// A clear coat that nobody sees.
        Varnish = "varnish",
        /// Dust of resin, metal, old paint or pigment.
        Dust = "dust",
        /// Cloths that heat up by themselves.
        OilyRags = "oily-rags",
        /// A knife or a file.
        Blade = "blade",
        /// Glue on skin and in eyes.
        Glue = "glue",
        /// Hardeners, and whatever else sensitises the lungs.
        TwoPack = "two-pack",
        /// What irritates skin and eyes or starts an allergy.
        Skin = "skin",
        /// Drying by heat where vapour can burn.
        Heat = "heat",
        /// What children and animals must be kept from.
        Children = "children",
        /// A label too small for its warnings.
        SmallLabel = "small-label",
    }
}

impl<'de> Deserialize<'de> for CautionKind {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::from_text(&String::deserialize(deserializer)?).map_err(de::Error::custom)
    }
}
