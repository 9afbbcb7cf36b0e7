//! What the colour stands for by which a product is known: the one on its label, that an author gives.

use crate::trade::{Hiding, Kind};

/// How many ordinary coats over white the colour of a product of some kind and hiding class stands for; `None` where it is
/// the colour of a film that covers.
///
/// What is sold to tint and to run is known by how it looks on something light: a clear and a transparent ink in two coats, a one-coat
/// paint as it is flooded on, a wash where it has gathered deep. Taken for what covers, a dark brown wash would scatter and
/// stain as no wash does. For a clear it is a convention of the guide's files, for the others an estimate: with it washes,
/// glazes and floods come out as painters have them.
pub fn coats_over_white(kind: Kind, hiding: Hiding) -> Option<f64> {
    match kind {
        Kind::Clear => Some(2.0),
        Kind::Ink if hiding == Hiding::Transparent => Some(2.0),
        Kind::OneCoat => Some(2.5),
        Kind::Wash => Some(6.0),
        _ => None,
    }
}
