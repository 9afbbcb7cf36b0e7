//! How much surface a model has, and how that is known.

use crate::bench::{Base, Bench, Figure};
use crate::guide::{Area, Model, Scheme};
use crate::measure::SquareCentimetres;
use crate::trade::ModelKind;

/// The surface of one model that paint can reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModelSurface {
    /// How much it is, without the base; with it where one of the scheme's areas is the base.
    pub area: SquareCentimetres,
    /// The base, which is painted with the model where a step goes over everything.
    pub base: Option<Base>,
    /// Whether one of the scheme's areas is the base, so that `area` holds it already.
    pub holds_base: bool,
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
    /// The surface of a scheme's model: as given, else from its mesh, else guessed from its scale; `None` where none is
    /// known. `mesh_area` is that of its areas on the mesh, or of all triangles, in square units of its file.
    pub fn of(scheme: &Scheme, mesh_area: Option<f64>, bench: &Bench) -> Option<Self> {
        let model = &scheme.model;
        let (area, source, spread) = known(model, mesh_area, bench)?;
        let base = bench.base(model);
        let holds_base = scheme.areas.iter().any(Area::is_base);
        let guessed = matches!(source, SurfaceSource::Guessed(_));
        let under = base.filter(|_| holds_base && guessed).map_or(0.0, |base| base.all.0);
        Some(Self { area: SquareCentimetres(area.0 + under), base, holds_base, source, spread: bench.get(spread) })
    }

    /// What a step that goes over everything covers beside `area`.
    pub(super) fn beside(&self) -> SquareCentimetres {
        self.base.filter(|_| !self.holds_base).map(|base| base.all).unwrap_or_default()
    }
}

fn known(model: &Model, mesh_area: Option<f64>, bench: &Bench) -> Option<(SquareCentimetres, SurfaceSource, Figure)> {
    if let Some(area) = model.surface {
        return Some((area, SurfaceSource::Given, Figure::SpreadGiven));
    }
    let measured = measured(model, mesh_area, bench).map(|area| (area, SurfaceSource::Mesh, Figure::SpreadMesh));
    measured.or_else(|| {
        let (area, kind) = bench.guessed_surface(model)?;
        Some((area, SurfaceSource::Guessed(kind), Figure::SpreadGuessed))
    })
}

fn measured(model: &Model, mesh_area: Option<f64>, bench: &Bench) -> Option<SquareCentimetres> {
    let scale = model.mesh.as_ref()?.scale.as_f64();
    let square_millimetres = mesh_area? * scale * scale;
    let area = square_millimetres / 100.0 * bench.get(Figure::MeshVisible);
    (area.is_finite() && area > 0.0).then_some(SquareCentimetres(area))
}
