//! What follows from a model's scale and kind: its height, its surface, the base it is on.

use super::figures::Figure;
use super::own::Bench;
use crate::guide::Model;
use crate::measure::{BaseSize, Scale, SquareCentimetres};
use crate::trade::ModelKind;

/// The base of a model.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Base {
    /// Its top, on which the model stands.
    pub top: SquareCentimetres,
    /// Its top and its rim.
    pub all: SquareCentimetres,
}

/// Millimetres that a scale of this height is named after.
pub(crate) const NAMED_AFTER: f64 = 28.0;

impl Bench {
    /// How tall a grown figure of a scale is, in millimetres.
    pub fn height(&self, scale: Scale) -> f64 {
        match scale {
            Scale::Height(named) => named.as_f64() * self.get(Figure::FigureHeight),
            Scale::Ratio(under) => self.get(Figure::GrownHeight) / under.as_f64(),
        }
    }

    /// The height that names a scale, in millimetres: 28 where figures are 32 mm tall.
    pub fn named_height(&self, scale: Scale) -> f64 {
        self.height(scale) / self.get(Figure::FigureHeight).max(f64::MIN_POSITIVE)
    }

    /// The surface of a figure on foot of a scale, with its kit: so many squares of its height.
    pub fn foot_surface(&self, scale: Scale) -> SquareCentimetres {
        SquareCentimetres(self.get(Figure::SurfaceFoot) * self.height(scale).powi(2) / 100.0)
    }

    /// The surface of a model by its scale and kind, if it has a scale, and the kind that it was taken for.
    pub fn guessed_surface(&self, model: &Model) -> Option<(SquareCentimetres, ModelKind)> {
        let kind = model.kind.unwrap_or(ModelKind::Foot);
        let foot = self.foot_surface(model.scale?);
        Some((SquareCentimetres(foot.0 * self.foot_figures(kind)), kind))
    }

    /// How many foot figures of its scale a kind of model has the surface of.
    fn foot_figures(&self, kind: ModelKind) -> f64 {
        self.get(match kind {
            ModelKind::Foot => return 1.0,
            ModelKind::Hero => Figure::SurfaceHero,
            ModelKind::Rider => Figure::SurfaceRider,
            ModelKind::Mount => Figure::SurfaceMount,
            ModelKind::Beast => Figure::SurfaceBeast,
            ModelKind::Vehicle => Figure::SurfaceVehicle,
            ModelKind::Aircraft => Figure::SurfaceAircraft,
            ModelKind::Building => Figure::SurfaceBuilding,
            ModelKind::Bust => Figure::SurfaceBust,
            ModelKind::Terrain => Figure::SurfaceTerrain,
        })
    }

    /// The base of a model: as the author says; else a round one by scale, where models of its kind have one.
    pub fn base(&self, model: &Model) -> Option<Base> {
        let (wide, deep) = match model.base {
            Some(BaseSize::None) => return None,
            Some(BaseSize::Oval(wide, deep)) => (wide.0, deep.0),
            None => {
                let width = self.usual_base(model)?;
                (width, width)
            }
        };
        let rim = self.get(Figure::BaseRim) * model.scale.map_or(1.0, |scale| self.named_height(scale) / NAMED_AFTER);
        let top = std::f64::consts::FRAC_PI_4 * wide * deep / 100.0;
        let around = std::f64::consts::FRAC_PI_2 * (wide + deep) * rim / 100.0;
        Some(Base { top: SquareCentimetres(top), all: SquareCentimetres(top + around) })
    }

    /// How wide the round base of a figure for the table usually is, in millimetres.
    fn usual_base(&self, model: &Model) -> Option<f64> {
        let named = self.named_height(model.scale?);
        let is_large = model.surface.is_some_and(|area| area.0 >= self.get(Figure::VehicleFrom));
        // Its surface and so its base are larger than a foot figure's.
        let wider = match model.kind {
            None | Some(ModelKind::Foot) => 1.0,
            Some(kind) if kind.stands_on_base() => self.foot_figures(kind).sqrt(),
            Some(_) => return None,
        };
        let has_one = named <= self.get(Figure::BaseUpTo) && !(model.kind.is_none() && is_large);
        has_one.then(|| self.get(Figure::BaseWidth) * named * wider)
    }
}
