//! Meshes: the surface of a model, measured from the file that it was printed or sculpted from.
//!
//! Only the area of the triangles is taken; nothing of a mesh is published. A file that can't be measured is a finding
//! at the place where the model names it.

mod checks;
mod measure;
mod survey;

pub use checks::CHECKS;
pub use survey::{KeptMeshes, Meshes, survey};
