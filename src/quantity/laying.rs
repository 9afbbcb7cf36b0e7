//! How much of what leaves the bottle reaches the model: by tool, palette and the size of the model.

use super::surface::ModelSurface;
use crate::bench::{Bench, Figure};
use crate::film::What;
use crate::guide::{Model, Step};
use crate::trade::{Family, ModelKind, Stage, Technique};

/// A way to lay paint, as far as its losses go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Laying {
    /// A brush and a wet palette.
    Brush,
    /// A brush and a dry palette, for what is not water-based.
    DryPalette,
    /// A large brush, straight from pot or cup, over terrain.
    LargeBrush,
    /// A nearly dry brush.
    Drybrush(ModelSize),
    /// A wash or a filter.
    Wash,
    /// A pin wash.
    PinWash,
    /// A brushed varnish.
    Varnish,
    /// A sponge or a stippling brush.
    Dabbed,
    /// A paste, glue or filler.
    Paste,
    /// Poured or trowelled to a depth.
    Deep,
    /// A powder.
    Powder,
    /// An airbrush.
    Airbrush(ModelSize),
    /// A can.
    Can(ModelSize),
}

/// How large a target a model is for a spray.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ModelSize {
    /// A figure, held alone or in a row.
    Figure,
    /// So many hundredths of the way from a figure to a vehicle.
    Between(u8),
    /// A vehicle.
    Vehicle,
    /// Terrain.
    Terrain,
}

impl ModelSize {
    /// Ground and buildings by what they are; any other model by its surface, for a spray meets a large rider as it meets a
    /// vehicle. It glides from the one to the other, so that a little more surface never asks for less paint.
    pub fn of(model: &Model, surface: &ModelSurface, bench: &Bench) -> Self {
        // However large a figure or a vehicle is, nobody paints it with a house brush.
        let may_be_terrain =
            matches!(model.kind, Some(ModelKind::Beast | ModelKind::Terrain | ModelKind::Building) | None);
        let area = surface.area.0;
        if model.is_ground() || (may_be_terrain && area >= bench.get(Figure::TerrainFrom)) {
            return Self::Terrain;
        }
        let half_way = bench.get(Figure::VehicleFrom).max(f64::MIN_POSITIVE);
        let way = 0.5 + (area / half_way).max(f64::MIN_POSITIVE).log2() / (2.0 * GLIDES_OVER.log2());
        match way {
            way if way <= 0.0 => Self::Figure,
            way if way >= 1.0 => Self::Vehicle,
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 100")]
            way => Self::Between((100.0 * way).round() as u8),
        }
    }

    /// A share of what is sprayed, between the one for figures and the one for vehicles.
    fn between(self, figure: f64, vehicle: f64) -> f64 {
        let way = match self {
            Self::Figure => 0.0,
            Self::Between(hundredths) => f64::from(hundredths) / 100.0,
            Self::Vehicle | Self::Terrain => 1.0,
        };
        figure + way * (vehicle - figure)
    }
}

impl Laying {
    /// How a step lays what it lays; `None` for `what` where no coat stays. It is `large` where it goes over much terrain.
    pub(super) fn of(step: &Step, what: Option<What>, family: Family, (size, large): (ModelSize, bool)) -> Self {
        match (what, step.technique) {
            _ if step.deep.is_some() => Self::Deep,
            (_, Technique::Airbrush) => Self::Airbrush(size),
            (_, Technique::SprayCan) => Self::Can(size),
            (Some(What::Powder), _) => Self::Powder,
            (Some(What::Texture | What::Filler), _) => Self::Paste,
            (_, Technique::Drybrush) => Self::Drybrush(if large { ModelSize::Terrain } else { ModelSize::Figure }),
            (_, Technique::Sponge | Technique::Stipple) => Self::Dabbed,
            (Some(_), Technique::Brush) if large => Self::LargeBrush,
            (Some(What::Varnish), _) => Self::Varnish,
            _ if step.stage == Stage::PanelWash => Self::PinWash,
            (None | Some(What::Decal | What::Shade | What::Fixer), _) | (_, Technique::Pipette) => Self::Wash,
            _ if family == Family::Water => Self::Brush,
            _ => Self::DryPalette,
        }
    }

    /// Whether it is painted from a palette, on which paint dries.
    pub(super) fn is_from_palette(self) -> bool {
        matches!(self, Self::Brush | Self::DryPalette)
    }

    /// Whether it sprays.
    pub fn sprays(self) -> bool {
        matches!(self, Self::Airbrush(_) | Self::Can(_))
    }

    /// The share that reaches the model, for one model alone and for each of several.
    pub(super) fn efficiency(self, bench: &Bench) -> (f64, f64) {
        let same = |figure: Figure| (bench.get(figure), bench.get(figure));
        let (alone, several) = match self {
            Self::Brush => same(Figure::BrushEfficiency),
            Self::DryPalette => same(Figure::DryPaletteEfficiency),
            Self::LargeBrush => same(Figure::TerrainBrushEfficiency),
            Self::Drybrush(_) => same(Figure::DrybrushEfficiency),
            Self::Wash => same(Figure::WashEfficiency),
            Self::PinWash => same(Figure::PinWashEfficiency),
            Self::Deep => same(Figure::DepthEfficiency),
            Self::Varnish => same(Figure::VarnishEfficiency),
            Self::Dabbed => same(Figure::DabbedEfficiency),
            Self::Paste => same(Figure::PasteEfficiency),
            Self::Powder => same(Figure::PowderEfficiency),
            Self::Airbrush(ModelSize::Terrain) => same(Figure::AirbrushTerrain),
            Self::Airbrush(size) => {
                let share = |figure: Figure| size.between(bench.get(figure), bench.get(Figure::AirbrushVehicle));
                (share(Figure::AirbrushSingle), share(Figure::AirbrushRow))
            }
            Self::Can(size) => {
                let caught = match size {
                    ModelSize::Terrain => bench.get(Figure::CanOnTerrain),
                    size => size.between(bench.get(Figure::CanOnFigures), bench.get(Figure::CanOnVehicle)),
                };
                let share = caught * bench.get(Figure::CanYield);
                (share, share)
            }
        };
        (alone.clamp(LEAST, 1.0), several.clamp(LEAST, 1.0))
    }
}

/// A model is a figure to a spray below the surface at which it is half-way to a vehicle over this, and a vehicle above that times
/// this: what passes beside it grows less with its size, and at no size at once. An estimate.
const GLIDES_OVER: f64 = 2.0;

/// Less than this never reaches a model; it keeps an author's own figure of 0 from asking for endless paint.
const LEAST: f64 = 0.001;
