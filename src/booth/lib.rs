//! **The light booth**: a mesh stands on paper under a soft light, and is drawn in the colours that somebody gives it.
//!
//! It knows nothing of paint or guides: triangles and colours go in, pixels and figures come out. It is a package of its
//! own so that builds for tests can compile it with all speed; the rest of the program asks for it in its room `render`.
//!
//! Everything rests on one idea. The mesh is looked at from many directions, each time as a map of depths (`maps`). For
//! any point these maps say how much light reaches it (`light`), whether it lies in a hollow, and whether the surface
//! falls away around it (`relief`). So nothing depends on how the triangles lie, holes do no harm, and the same mesh
//! gives the same bytes: sums are always made in the same order.
//!
//! A view is baked once ([`Baked`]): what only mesh and camera decide. Drawing it in other colours is then a short sum a
//! point ([`Baked::shade`]).

mod bake;
mod camera;
mod develop;
mod ground;
mod light;
mod lined;
mod maps;
mod mesh;
mod near;
mod noise;
mod pack;
mod photo;
mod raster;
mod relief;
mod sample;
mod seat;
mod shade;
mod vector;

pub use bake::Baked;
pub use camera::View;
pub use develop::{Pixels, Shaded};
pub use mesh::{Mesh, NO_AREA};
pub use photo::{Bare, Photo};
pub use relief::{AreaRelief, Relief, measure};
pub use shade::{AreaLook, Flecks, Grain, Patch, SIDES, Shine, Sided, Tone};
