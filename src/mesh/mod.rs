//! Meshes: the surface of a model, measured from the file that it was printed or sculpted from.

use std::collections::BTreeMap;

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
