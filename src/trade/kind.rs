//! What a product is for.

use super::{Family, choice};

choice! {
    /// The kind of a product.
    Kind, "a kind of paint" {
        /// An ordinary colour.
        Paint = "paint",
        /// A colour with metal flakes.
        Metal = "metal",
        /// A transparent, tinted clear.
        Clear = "clear",
        /// A thin dark paint for recesses.
        Wash = "wash",
        /// A transparent paint that is flooded on undiluted and pools: ground colour and shade in one coat.
        OneCoat = "one-coat",
        /// A strong, fluid colour.
        Ink = "ink",
        /// The coat that paint grips on.
        Primer = "primer",
        /// A clear protecting coat.
        Varnish = "varnish",
        /// A clear binder that makes paint thinner in colour, not in film.
        Medium = "medium",
        /// What thins a paint.
        Thinner = "thinner",
        /// What takes paint off tools.
        Cleaner = "cleaner",
        /// What makes a decal lie down.
        DecalSoftener = "decal-softener",
        /// A soluble layer that lets the coat above chip.
        Resist = "resist",
        /// Dry powder.
        Pigment = "pigment",
        /// A paste with grit.
        Texture = "texture",
        /// Resin that is poured or dabbed on and hardens as a whole: water, ice, glass.
        Resin = "resin",
        /// What sticks.
        Glue = "glue",
        /// Artist's oil paint.
        Oil = "oil",
        /// Enamel paint.
        Enamel = "enamel",
    }
}

impl Kind {
    /// The family that the kind settles by itself.
    pub fn family(self) -> Option<Family> {
        match self {
            Self::Oil => Some(Family::Oil),
            Self::Enamel => Some(Family::Enamel),
            Self::Pigment => Some(Family::Dry),
            _ => None,
        }
    }

    /// Whether it is drawn as a brush-out in its colour; the others are drawn as an outlined drop.
    pub fn has_colour(self) -> bool {
        !matches!(
            self,
            Self::Varnish
                | Self::Medium
                | Self::Thinner
                | Self::Cleaner
                | Self::DecalSoftener
                | Self::Resist
                | Self::Resin
                | Self::Glue
        )
    }

    /// Whether it leaves a film of which one sees how it shines.
    pub fn makes_film(self) -> bool {
        !matches!(self, Self::Thinner | Self::Cleaner | Self::DecalSoftener | Self::Glue | Self::Resist)
    }
}
