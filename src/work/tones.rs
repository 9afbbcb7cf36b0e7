//! The predicted colours of an area in its recesses, on its faces and on its edges when all is done.

use crate::film::Film;
use crate::film::{Appearance, Conditions};
use crate::measure::Colour;
use crate::trade::Zone;

/// What one sees in each zone of an area; `None` where nothing lies or its colour is unknown.
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

/// The tones of each area of a scheme when all its steps are done.
pub(super) fn tones(film: &Film<'_>, conditions: &Conditions) -> Vec<Tones> {
    let appearance = film.appearance(conditions);
    (0..film.scheme().areas.len()).map(|area| of(film, appearance, area, conditions)).collect()
}

fn of(film: &Film<'_>, appearance: &Appearance, area: usize, conditions: &Conditions) -> Tones {
    let colour = |zone| appearance.colour_after(usize::MAX, area, zone);
    Tones {
        recesses: colour(Zone::Recesses),
        faces: colour(Zone::Faces),
        edges: colour(Zone::Edges),
        metallic: film.finished().metal(area, Zone::Faces, &conditions.bench).is_some(),
    }
}
