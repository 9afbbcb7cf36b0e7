//! What is checked about mesh files.

use crate::report::{Check, Group, Level};

/// Every check of this layer.
pub const CHECKS: &[&Check] = &[&MESH_UNREADABLE, &MESH_SIZE];

/// A mesh can be measured.
pub(super) static MESH_UNREADABLE: Check = Check {
    id: "mesh-unreadable",
    level: Level::Error,
    about: "a mesh is a whole STL or OBJ file of at most 200 MB and 5 million triangles (OBJ: 100 MB, 2 million faces)",
    why: "the surface of the model can't be measured, and how much paint it takes is not known",
    group: Group::Links,
    safety: false,
};

/// A mesh is as large as a model.
pub(super) static MESH_SIZE: Check = Check {
    id: "mesh-size-unlikely",
    level: Level::Warning,
    about: "the surface of a mesh is that of something that can be painted at a table",
    why: "the file is probably in another unit than millimetres, and every amount would be wrong a hundredfold or more",
    group: Group::Links,
    safety: false,
};
