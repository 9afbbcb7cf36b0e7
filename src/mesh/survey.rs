//! The surfaces of all meshes that models name, measured once each.

use std::collections::BTreeMap;
use std::io;

use super::{checks, measure};
use crate::door::{Door, Looks};
use crate::guide::{Guide, Mesh};
use crate::report::{Finding, wording};

/// The surfaces of all meshes that could be read, by their paths from the content folder.
#[derive(Debug, Clone, Default)]
pub struct Meshes {
    areas: BTreeMap<String, f64>,
}

impl Meshes {
    /// The area of all triangles of a mesh, in square units of its file.
    pub fn area(&self, path: &str) -> Option<f64> {
        self.areas.get(path).copied()
    }
}

/// The surfaces that the last survey found, or why there are none.
pub type KeptMeshes = Looks<Result<f64, String>>;

/// Measures the mesh of every scheme whose author gives no surface; what can't be measured is told. One whose stamp is
/// that of the last survey is not measured again.
pub fn survey(door: &dyn Door, guide: &Guide, kept: &mut KeptMeshes) -> (Meshes, Vec<Finding>) {
    let named = guide.schemes.iter().map(|scheme| &scheme.model).filter(|model| model.surface.is_none());
    let named: Vec<&Mesh> = named.filter_map(|model| model.mesh.as_ref()).collect();
    let by_path: BTreeMap<&str, &Mesh> = named.iter().map(|mesh| (mesh.path.as_str(), *mesh)).collect();
    kept.look_at(door, by_path.into_keys(), |path| measure(door, path));
    let told = |mesh: &&Mesh| finding(mesh, kept.get(&mesh.path)?.as_ref());
    let findings = named.iter().filter_map(told).collect();
    let areas = kept.iter().filter_map(|(path, measured)| Some((path.to_owned(), *measured.as_ref().ok()?)));
    (Meshes { areas: areas.collect() }, findings)
}

fn measure(door: &dyn Door, path: &str) -> Result<f64, String> {
    let is_obj = path.to_lowercase().ends_with(".obj");
    let most = if is_obj { measure::MOST_OBJ_BYTES } else { measure::MOST_STL_BYTES };
    let bytes = door.read(&format!("content/{path}"), most).map_err(|error| match error.kind() {
        io::ErrorKind::FileTooLarge => format!("it is larger than {} MB", most / 1_000_000),
        _ => error.to_string(),
    })?;
    if is_obj { measure::obj(&bytes) } else { measure::stl(bytes) }
}

/// Less than this, in cm², is no model, and more is no table.
const LIKELY: std::ops::RangeInclusive<f64> = 0.1..=100_000.0;

fn finding(mesh: &Mesh, measured: Result<&f64, &String>) -> Option<Finding> {
    let area = match measured {
        Ok(area) => *area,
        Err(why) => {
            let message = format!("the mesh {} can't be measured: {}", wording::quoted(&mesh.path), why);
            let mend = "save it again as STL or OBJ, with triangles, or write the surface itself: 'surface: 32 cm2'";
            return Some(Finding::new(&checks::MESH_UNREADABLE, mesh.place, message, mend));
        }
    };
    let square_centimetres = area * mesh.scale.as_f64().powi(2) / 100.0;
    if LIKELY.contains(&square_centimetres) {
        return None;
    }
    let message = format!("the surface of {} comes to {square_centimetres:.3e} cm²", wording::quoted(&mesh.path));
    let mend = "write how many millimetres one unit of the file is, as in 'mesh-scale: 10' for centimetres";
    Some(Finding::new(&checks::MESH_SIZE, mesh.place, message, mend))
}
