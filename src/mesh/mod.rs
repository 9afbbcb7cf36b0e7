//! Meshes: the shape of a model, read from the file that it was printed or sculpted from.
//!
//! What the author does not give is measured from it: surface, shares of areas, zones. Nothing of a mesh is published but
//! pictures of it. A file that can't be read is a finding at the place where the model names it.

mod checks;
mod fill;
mod findings;
mod form;
mod obj;
mod ply;
mod polygon;
mod shape;
mod soup;
mod stl;
mod survey;
mod unread;
mod usual;

pub use checks::CHECKS;
pub use shape::Shape;
pub use survey::{KeptMeshes, Meshes, survey};
