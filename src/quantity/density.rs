//! How heavy a product is, so that a lot can be weighed: scales repeat what drops can't.

use crate::bench::{Bench, Figure};
use crate::guide::Paint;
use crate::trade::{Family, Kind};

/// Grams per millilitre of a product, by its family and its kind.
pub fn density(paint: &Paint, bench: &Bench) -> f64 {
    bench.get(match (paint.kind, paint.family) {
        (Kind::Pigment, _) | (_, Family::Dry) => Figure::DensityPowder,
        (Kind::Texture, _) => Figure::DensityPaste,
        (Kind::Oil, _) => Figure::DensityOil,
        (
            Kind::Ink
            | Kind::Wash
            | Kind::OneCoat
            | Kind::Clear
            | Kind::Varnish
            | Kind::Medium
            | Kind::Thinner
            | Kind::Cleaner
            | Kind::DecalSoftener
            | Kind::Resist
            | Kind::Glue,
            family,
        ) => {
            if family == Family::Water {
                Figure::DensityThinWater
            } else {
                Figure::DensityThinSolvent
            }
        }
        (_, Family::Water) => Figure::DensityWater,
        (_, Family::Alcohol) => Figure::DensityAlcohol,
        (_, Family::Lacquer) => Figure::DensityLacquer,
        (_, Family::Enamel | Family::TwoPack | Family::Lamp) => Figure::DensityEnamel,
        (_, Family::Oil) => Figure::DensityOil,
    })
}
