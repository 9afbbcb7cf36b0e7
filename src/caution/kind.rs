//! The dangers that a step may hold, each with a stable id.

use serde::{Deserialize, Deserializer, de};

use crate::measure::FromText;
use crate::trade::choice;

choice! {
    /// One danger, in the order in which cautions are shown: the air first, then fire, hands, people around.
    CautionKind, "a caution" {
        /// Droplets in the air, of water-based paint too.
        SprayMist = "spray-mist",
        /// Droplets that a particle mask holds back.
        ParticleMask = "particle-mask",
        /// Solvent in the air: vapour that a particle mask lets through.
        SpraySolvent = "spray-solvent",
        /// A can under pressure.
        AerosolCan = "aerosol-can",
        /// Solvent on the desk: vapour, swallowing, the drain.
        Solvent = "solvent",
        /// What makes a decal soft, and gives off vapour.
        Softener = "softener",
        /// A clear coat that nobody sees.
        Varnish = "varnish",
        /// Dust of what is scraped, sawn, filed or sanded.
        Dust = "dust",
        /// Dry powder that rises at a breath.
        Powder = "powder",
        /// A casting alloy that may hold lead.
        Lead = "lead",
        /// Pigments that harm when they are sprayed, sanded or dry.
        HarmfulPigment = "harmful-pigment",
        /// How a mask has to sit, and for how long it holds.
        MaskFit = "mask-fit",
        /// Vapour that burns, and heat for drying.
        Heat = "heat",
        /// Cloths that heat up by themselves.
        OilyRags = "oily-rags",
        /// What cuts: knife, cutters, saw.
        Blade = "blade",
        /// What turns by a motor.
        PowerTool = "power-tool",
        /// What gets hot: wire, iron, hot air.
        HotTool = "hot-tool",
        /// Water that scalds.
        HotWater = "hot-water",
        /// A lamp that hardens resin.
        Lamp = "lamp",
        /// What works by high voltage.
        HighVoltage = "high-voltage",
        /// Glue on skin and in eyes.
        Glue = "glue",
        /// Hardeners that may sensitise the lungs, and whatever else does.
        TwoPack = "two-pack",
        /// Resin and hardener that may sensitise the skin.
        Hardener = "hardener",
        /// A deep pour that heats up by itself.
        HotPour = "hot-pour",
        /// What irritates skin and eyes or does lasting harm.
        Skin = "skin",
        /// What starts an allergy of the skin, and nothing worse.
        Allergy = "allergy",
        /// What whoever is pregnant or has asthma must ask about.
        Pregnancy = "pregnancy",
        /// Water that harms life in water.
        RinseWater = "rinse-water",
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
