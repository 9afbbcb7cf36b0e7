//! What is checked about mesh files.

use crate::report::{Check, Group, Level};

/// Every check of this layer.
pub const CHECKS: &[&Check] = &[&MESH_UNREADABLE, &MESH_SIZE, &MESH_AREA, &MESH_DIFFERS];

/// A mesh can be measured.
pub(super) static MESH_UNREADABLE: Check = Check {
    id: "mesh-unreadable",
    level: Level::Error,
    about: "a mesh is a whole STL, OBJ or PLY file of at most 200 MB (OBJ: 100 MB) and 5 million triangles",
    why: "the surface of the model can't be measured, and how much paint it takes is not known",
    group: Group::Links,
    safety: false,
};

/// A mesh is as large as a model.
pub(super) static MESH_SIZE: Check = Check {
    id: "mesh-size-unlikely",
    level: Level::Warning,
    about: "the surface of a mesh is that of something that can be painted at a table, and of a model of its scale and kind",
    why: "the file is probably in another unit than millimetres, and every amount would be wrong tenfold, a hundredfold or more",
    group: Group::Links,
    safety: false,
};

/// Areas are found on the mesh.
pub(super) static MESH_AREA: Check = Check {
    id: "mesh-area",
    level: Level::Warning,
    about: "where a mesh has groups, materials or colours for areas, every area of the scheme is found on it",
    why: "its share can't be measured, and the pictures of the steps leave it bare",
    group: Group::Links,
    safety: false,
};

/// Figures agree with the mesh.
pub(super) static MESH_DIFFERS: Check = Check {
    id: "mesh-differs",
    level: Level::Note,
    about: "shares and zones that an author gives are about those of the mesh",
    why: "how much paint a step takes is reckoned from them",
    group: Group::Links,
    safety: false,
};
