//! Whether a mesh has the surface that a model of its scale and kind usually has.

use crate::bench::{Bench, Figure};
use crate::guide::Model;
use crate::trade::ModelKind;

/// A mesh with less than one in so many parts of what is usual is in another unit: centimetres make it a hundredth, inches
/// a 645th. Half figures and animals on foot stay above it.
const LESS: f64 = 8.0;

/// The same where kinds differ much among themselves (a motorcycle and a tank are vehicles), or none is written: a bust has
/// a seventh of what a figure on foot has (`surface-bust`).
const FAR_LESS: f64 = 30.0;

/// A mesh with more than so many times what is usual is in another unit. A file may hold a squad of ten, and a sculpted
/// figure with its kit has up to three times the surface of a plain one; without a kind it may be a vehicle
/// (`surface-vehicle`: 23.5). A mesh in millimetres that is read as centimetres has a hundred times its surface.
const MORE: f64 = 40.0;

/// What a model like this usually has, where a mesh of so many square centimetres is far from it; nothing where too little
/// is said of the model to tell: ground and buildings have any size.
pub(super) fn missed(model: &Model, measured: f64, bench: &Bench) -> Option<(f64, ModelKind)> {
    let (usual, kind) = bench.guessed_surface(model).filter(|_| !model.is_ground())?;
    let is_alike = matches!(model.kind, Some(ModelKind::Foot | ModelKind::Hero | ModelKind::Rider | ModelKind::Mount));
    let times = measured * bench.get(Figure::MeshVisible) / usual.0;
    let least = 1.0 / if is_alike { LESS } else { FAR_LESS };
    let missed = times.is_finite() && !(least..=MORE).contains(&times);
    missed.then_some((usual.0, kind))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{FromText, Scale};

    /// Whether a mesh of so many times the surface of a figure on foot of 28 mm is far from what is usual.
    fn is_missed(kind: Option<ModelKind>, material: Option<&str>, times: f64) -> bool {
        let bench = Bench::default();
        let scale = Scale::from_text("28 mm").ok();
        let model = Model { kind, scale, material: material.map(str::to_owned), ..Model::default() };
        let foot = bench.foot_surface(Scale::from_text("28 mm").unwrap()).0 / bench.get(Figure::MeshVisible);
        missed(&model, foot * times, &bench).is_some()
    }

    #[test]
    fn a_figure_in_centimetres_or_ten_times_as_long_is_missed() {
        for kind in [None, Some(ModelKind::Foot)] {
            assert!(is_missed(kind, Some("resin"), 0.01) && is_missed(kind, None, 0.01), "{kind:?}");
            assert!(is_missed(kind, None, 3.0 * 100.0) && is_missed(kind, None, 87.0), "{kind:?}");
        }
        assert!(is_missed(Some(ModelKind::Foot), None, 0.1) && is_missed(Some(ModelKind::Bust), None, 0.001));
    }

    #[test]
    fn squads_vehicles_animals_busts_and_ground_are_not_missed() {
        for times in [0.14, 0.3, 1.0, 3.0, 30.0] {
            assert!(!is_missed(Some(ModelKind::Foot), None, times) && !is_missed(None, None, times), "{times}");
        }
        for (kind, times) in [(ModelKind::Vehicle, 1.5), (ModelKind::Vehicle, 300.0), (ModelKind::Bust, 0.1)] {
            assert!(!is_missed(Some(kind), None, times), "{kind} {times}");
        }
        for times in [0.01, 10.0, 5000.0] {
            assert!(
                !is_missed(Some(ModelKind::Terrain), None, times) && !is_missed(None, Some("foam"), times),
                "{times}"
            );
        }
    }

    #[test]
    fn without_a_scale_nothing_is_usual() {
        let model = Model { kind: Some(ModelKind::Foot), ..Model::default() };
        assert_eq!(missed(&model, 1e4, &Bench::default()), None);
    }
}
