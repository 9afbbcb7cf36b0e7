//! What is drawn: a model's mesh from a side, or a photograph of it bare.

use booth::{Baked, Bare, View};

use crate::guide::Viewpoint;
use crate::mesh::Shape;
use crate::plate::Plate;
use crate::trade::Side;

/// Pixels across the largest picture of a mesh, and of one that is turned: there are eight of these.
const WIDE: usize = 960;
const TURNED: usize = 640;

/// How high the camera stands where nobody says, in degrees.
const HEIGHT: u8 = 14;

/// A model as it can be drawn.
#[derive(Debug, Clone, Copy)]
pub enum Sitter<'a> {
    /// Its mesh, from somewhere.
    Mesh {
        /// The mesh.
        shape: &'a Shape,
        /// From where it is seen.
        view: Viewpoint,
        /// Whether it is turned, and drawn smaller.
        turned: bool,
    },
    /// A photograph of it, bare.
    Photo {
        /// The photograph.
        plate: &'a Plate,
        /// The colour of what it is primed with, in linear light.
        coat: [f32; 3],
    },
}

impl Sitter<'_> {
    /// The whole model from a side; `None` where it can be seen from one alone.
    pub fn turned(self, side: Side) -> Option<Self> {
        match self {
            Self::Mesh { shape, view, .. } => {
                let view = Viewpoint { side: Some(side), near: None, ..view };
                Some(Self::Mesh { shape, view, turned: true })
            }
            Self::Photo { .. } => None,
        }
    }

    /// Width and height of its largest picture; `None` where nothing of it can be drawn.
    pub(super) fn size(self) -> Option<(usize, usize)> {
        match self {
            Self::Mesh { shape, view, turned } => Baked::size(&shape.drawn, &camera(view, turned)),
            Self::Photo { plate, .. } => Some((plate.photo.width, plate.photo.height)),
        }
    }

    pub(super) fn bake(self) -> Option<Baked> {
        match self {
            Self::Mesh { shape, view, turned } => Baked::of(&shape.drawn, &camera(view, turned)),
            Self::Photo { plate, coat } => plate.photo.bake(&Bare { coat, zones: plate.zones }),
        }
    }

    /// What tells the mesh or the photograph from any other.
    pub(super) fn mark(&self) -> &[u8] {
        match self {
            Self::Mesh { shape, .. } => &shape.mark,
            Self::Photo { plate, .. } => &plate.mark,
        }
    }

    /// What else decides what is seen of it.
    pub(super) fn seen_from(&self) -> String {
        match self {
            Self::Mesh { view, turned, .. } => format!("{view:?} {turned}"),
            Self::Photo { coat, .. } => format!("{coat:?}"),
        }
    }
}

/// The camera of a viewpoint: without one, from the front, a little to the left and a little above.
fn camera(viewpoint: Viewpoint, turned: bool) -> View {
    View {
        turn: viewpoint.side.unwrap_or(Side::FrontLeft).turn(),
        height: f32::from(viewpoint.height.unwrap_or(HEIGHT)),
        near: viewpoint.near.and_then(|area| u16::try_from(area).ok()),
        width: if turned { TURNED } else { WIDE },
    }
}
