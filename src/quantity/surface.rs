//! How much surface a model has, and how that is known.

use crate::bench::{Bench, Figure};
use crate::guide::Model;
use crate::measure::{Scale, SquareCentimetres};
use crate::trade::ModelKind;

/// The surface of one model that paint can reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModelSurface {
    /// How much it is.
    pub area: SquareCentimetres,
    /// How it is known.
    pub source: SurfaceSource,
    /// By what factor it may be off, up or down.
    pub spread: f64,
}

/// How a surface is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SurfaceSource {
    /// The author gives it.
    Given,
    /// It was measured from a mesh.
    Mesh,
    /// It was guessed from the scale and a kind; the kind is the author's, or a figure on foot.
    Guessed(ModelKind),
}

impl ModelSurface {
    /// The surface of a model: as given, else from its mesh, else guessed from its scale; `None` where none is
    /// known. `mesh_area` is that of all triangles of the mesh, in square units of its file.
    pub fn of(model: &Model, mesh_area: Option<f64>, bench: &Bench) -> Option<Self> {
        if let Some(area) = model.surface {
            return Some(Self { area, source: SurfaceSource::Given, spread: bench.get(Figure::SpreadGiven) });
        }
        measured(model, mesh_area, bench).or_else(|| guessed(model, bench))
    }
}

fn measured(model: &Model, mesh_area: Option<f64>, bench: &Bench) -> Option<ModelSurface> {
    let mesh = model.mesh.as_ref()?;
    let scale = mesh.scale.as_f64();
    let square_millimetres = mesh_area? * scale * scale;
    let area = SquareCentimetres(square_millimetres / 100.0 * bench.get(Figure::MeshVisible));
    let usable = area.0.is_finite() && area.0 > 0.0;
    usable.then(|| ModelSurface { area, source: SurfaceSource::Mesh, spread: bench.get(Figure::SpreadMesh) })
}

/// A foot figure has so many squares of its height; other kinds are so many foot figures.
fn guessed(model: &Model, bench: &Bench) -> Option<ModelSurface> {
    let height = match model.scale? {
        Scale::Height(named) => named.as_f64() * bench.get(Figure::FigureHeight),
        Scale::Ratio(under) => bench.get(Figure::GrownHeight) / under.as_f64(),
    };
    let kind = model.kind.unwrap_or(ModelKind::Foot);
    let foot = bench.get(Figure::SurfaceFoot) * height * height / 100.0;
    let area = SquareCentimetres(foot * foot_figures(kind, bench));
    Some(ModelSurface { area, source: SurfaceSource::Guessed(kind), spread: bench.get(Figure::SpreadGuessed) })
}

fn foot_figures(kind: ModelKind, bench: &Bench) -> f64 {
    bench.get(match kind {
        ModelKind::Foot => return 1.0,
        ModelKind::Hero => Figure::SurfaceHero,
        ModelKind::Rider => Figure::SurfaceRider,
        ModelKind::Beast => Figure::SurfaceBeast,
        ModelKind::Vehicle => Figure::SurfaceVehicle,
        ModelKind::Aircraft => Figure::SurfaceAircraft,
        ModelKind::Building => Figure::SurfaceBuilding,
    })
}
