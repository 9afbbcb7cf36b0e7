//! The predicted colours of an area in its recesses, on its faces and on its edges when all is done.

use crate::colour::{Stack, space};
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
    /// What lies beside that on the faces where masks made a pattern, the larger one first.
    pub pattern: [Option<Colour>; 2],
    /// Whether metal shines on the faces.
    pub metallic: bool,
    /// Whether the faces were measured on the finished model; recesses and edges are then off them as predicted.
    pub measured: bool,
}

/// The tones of each area of a scheme when all its steps are done.
pub(super) fn tones(film: &Film<'_>, conditions: &Conditions) -> Vec<Tones> {
    let appearance = film.appearance(conditions);
    (0..film.scheme().areas.len()).map(|area| of(film, appearance, area, conditions)).collect()
}

fn of(film: &Film<'_>, appearance: &Appearance, area: usize, conditions: &Conditions) -> Tones {
    let colour = |zone| appearance.colour_after(usize::MAX, area, zone);
    let mut beside = appearance.parts(area, Zone::Faces).into_iter().skip(1).filter(|(share, _)| *share > 0.0);
    let mut pattern = || beside.next().and_then(|(_, shown)| shown.stack().map(Stack::colour));
    let predicted = Tones {
        recesses: colour(Zone::Recesses),
        faces: colour(Zone::Faces),
        edges: colour(Zone::Edges),
        pattern: [pattern(), pattern()],
        metallic: film.finished().metal(area, Zone::Faces, &conditions.bench).is_some(),
        measured: false,
    };
    match film.scheme().areas.get(area).and_then(|area| area.shows) {
        Some(shows) => predicted.measured(shows),
        None => predicted,
    }
}

impl Tones {
    /// With the faces as they were measured; what stands off from them does so by as much as before.
    fn measured(self, shows: Colour) -> Self {
        let lab = |colour: Colour| space::lab(space::linear(colour));
        let beside = |other: Option<Colour>| {
            let (other, faces) = (lab(other?), lab(self.faces?));
            let moved = lab(shows) + (other - faces);
            Some(space::shown(space::linear_of(moved)))
        };
        Self { recesses: beside(self.recesses), faces: Some(shows), edges: beside(self.edges), measured: true, ..self }
    }
}
