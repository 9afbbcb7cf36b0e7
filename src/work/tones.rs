//! The colours of an area in its recesses, on its faces and on its edges when all is done.
//!
//! They are the paints' own colours, laid over each other by how well they hide; a sketch for the eye and not a
//! prediction, and pages must not call it one.

use super::section::{Cut, Stripe};
use crate::measure::Colour;
use crate::trade::Zone;

/// The last colour in each zone of an area, where any paint with a known colour reached it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tones {
    /// Deep folds, joints, panel lines.
    pub recesses: Option<Colour>,
    /// The broad surfaces.
    pub faces: Option<Colour>,
    /// Rims, ridges, corners.
    pub edges: Option<Colour>,
    /// Whether metal shines on the faces.
    pub metallic: bool,
}

impl Tones {
    /// The tones of a cut; `metallic` says whether metal shines on its faces.
    pub(super) fn of(cut: &Cut, metallic: bool) -> Self {
        let last = |zone: Zone| cut.zones[zone as usize].last().and_then(|stripe: &Stripe| stripe.colour);
        Self { recesses: last(Zone::Recesses), faces: last(Zone::Faces), edges: last(Zone::Edges), metallic }
    }
}
