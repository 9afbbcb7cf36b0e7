//! What a product is bought for, which is where a list puts it.

use crate::trade::{Kind, choice};

choice! {
    /// The role of a product, in the order of a list; words below `role`.
    Role, "a role of a product" {
        /// What all paint grips on.
        Ground = "ground",
        /// What has a colour.
        Paints = "paints",
        /// What thins, cleans and stretches.
        Thinners = "thinners",
        /// What closes the work.
        Varnishes = "varnishes",
        /// What sticks, fills and softens.
        Helpers = "helpers",
    }
}

impl Role {
    /// The role of a kind of product.
    pub fn of(kind: Kind) -> Self {
        match kind {
            Kind::Primer => Self::Ground,
            Kind::Thinner | Kind::Cleaner | Kind::Medium => Self::Thinners,
            Kind::Varnish => Self::Varnishes,
            Kind::DecalSoftener | Kind::Resist | Kind::Glue | Kind::Texture => Self::Helpers,
            _ => Self::Paints,
        }
    }
}
