//! How far over an area a step goes.

use super::choice;

choice! {
    /// Where on its areas a step puts paint.
    Reach, "a place on the area" {
        /// Everywhere.
        All = "all",
        /// Deep folds, joints, panel lines.
        Recesses = "recesses",
        /// The broad surfaces.
        Faces = "faces",
        /// Faces and edges.
        Raised = "raised",
        /// Rims, ridges, corners.
        Edges = "edges",
        /// Single points, such as lenses and gems.
        Spots = "spots",
    }
}

choice! {
    /// A third of an area's relief.
    Zone, "a zone" {
        /// Deep folds, joints, panel lines.
        Recesses = "recesses",
        /// The broad surfaces.
        Faces = "faces",
        /// Rims, ridges, corners.
        Edges = "edges",
    }
}

impl Reach {
    /// The zones that a step reaches; spots are apart from all three.
    pub fn zones(self) -> &'static [Zone] {
        match self {
            Self::All => Zone::ALL,
            Self::Recesses => &[Zone::Recesses],
            Self::Faces => &[Zone::Faces],
            Self::Raised => &[Zone::Faces, Zone::Edges],
            Self::Edges => &[Zone::Edges],
            Self::Spots => &[],
        }
    }
}
