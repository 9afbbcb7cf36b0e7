//! What a coat is, and how much it hides.

use super::cup::Cup;
use crate::bench::{Bench, Figure};
use crate::guide::Step;
use crate::trade::{Kind, Stage};

/// What a coat is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum What {
    /// The coat that paint grips on.
    Ground,
    /// An ordinary colour, metal included.
    Colour,
    /// Dark or dirt that flows: a wash.
    Shade,
    /// A clear colour.
    Tint,
    /// A clear protecting coat.
    Varnish,
    /// A soluble film that lets the coat above chip.
    Resist,
    /// Dry powder.
    Powder,
    /// What holds powder.
    Fixer,
    /// A paste with grit, or glue with something on it.
    Texture,
    /// What fills a gap.
    Filler,
    /// A decal.
    Decal,
}

/// How much a coat hides, with its dilution and the number of its coats.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Opacity {
    /// Nothing: it has no colour.
    Clear,
    /// It colours what lies beneath, which still shows.
    Tinting,
    /// What lies beneath is faint.
    Covering,
    /// What lies beneath is gone.
    Opaque,
}

impl What {
    /// What a step lays, if it lays anything.
    pub(super) fn of(step: &Step, cup: &Cup<'_>) -> Option<Self> {
        if step.stage == Stage::Decal {
            return Some(Self::Decal);
        }
        Some(match (cup.kind()?, step.stage) {
            (Kind::Thinner | Kind::Cleaner | Kind::DecalSoftener, _)
            | (Kind::Glue, Stage::Prepare | Stage::Assemble) => return None,
            (Kind::Texture, Stage::Prepare | Stage::Assemble) => Self::Filler,
            (Kind::Texture | Kind::Glue, _) => Self::Texture,
            (Kind::Resist, _) => Self::Resist,
            (Kind::Pigment, _) => Self::Powder,
            (Kind::Medium, Stage::Pigment | Stage::Weather) => Self::Fixer,
            (Kind::Primer, _) | (_, Stage::Undercoat) => Self::Ground,
            (Kind::Varnish | Kind::Medium | Kind::Resin, _) | (Kind::Clear, Stage::Varnish) => Self::Varnish,
            (Kind::Clear, _) | (_, Stage::Glaze) => Self::Tint,
            (Kind::Wash, _) | (_, Stage::Shade | Stage::PanelWash) => Self::Shade,
            _ => Self::Colour,
        })
    }
}

impl Opacity {
    /// The class of a share that is hidden.
    pub(super) fn of(cover: f64, bench: &Bench) -> Self {
        if cover <= 0.0 {
            Self::Clear
        } else if cover < bench.get(Figure::CoveringFrom) {
            Self::Tinting
        } else if cover < bench.get(Figure::OpaqueFrom) {
            Self::Covering
        } else {
            Self::Opaque
        }
    }
}
