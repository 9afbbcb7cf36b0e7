//! How much of a model's surface a step touches.

use crate::bench::{Bench, Figure};
use crate::film::{Film, What, film_figure};
use crate::guide::{Scheme, Step};
use crate::measure::Fraction;
use crate::trade::{Reach, Stage, Zone};

/// The shares of the surface that a step touches; their product counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Touched {
    /// Of the whole surface, the areas that it reaches.
    pub(super) areas: f64,
    /// Of these areas, what it touches.
    pub(super) zones: f64,
    /// Whether it only draws lines or spots, whose share is a rough guess.
    pub(super) fine: bool,
}

/// What the step at a position touches; `None` where an area's share is not known.
pub(super) fn touched(film: &Film<'_>, position: usize, step: &Step, bench: &Bench) -> Option<Touched> {
    let scheme = film.scheme();
    let reached = film.areas(position);
    if reached.is_empty() {
        let areas = if step.stage == Stage::Basing { bench.get(Figure::BaseShare) } else { 1.0 };
        return Some(Touched { areas, zones: 1.0, fine: false });
    }
    let shares = reached.iter().map(|area| Some(scheme.areas.get(*area)?.share?.as_fraction().as_f64()));
    let areas = shares.sum::<Option<f64>>()?.min(1.0);
    let coat = film.coat(position);
    let figure = coat.map(|coat| film_figure(step, coat.what, &coat.cup, bench));
    let zones = zones(scheme, step);
    let (zones, fine) = match (coat.map(|coat| coat.what), figure, step.reach) {
        (Some(What::Decal), ..) => (bench.get(Figure::DecalShare), true),
        (Some(What::Filler), ..) => (bench.get(Figure::FillerShare), true),
        (_, _, Reach::Spots) => (bench.get(Figure::SpotsShare), true),
        (_, Some(Figure::WetLine), _) => (zones * bench.get(Figure::LineShare), true),
        (_, Some(Figure::WetPinWash), _) => (zones * bench.get(Figure::PinWashShare), true),
        // The film of drybrushing is an average over the whole area.
        (_, Some(Figure::WetDrybrush), _) => (1.0, false),
        _ => (zones, false),
    };
    Some(Touched { areas, zones: zones.clamp(0.0, 1.0), fine })
}

fn zones(scheme: &Scheme, step: &Step) -> f64 {
    let share = |zone: &Zone| match zone {
        Zone::Recesses => scheme.zones.recesses,
        Zone::Faces => scheme.zones.faces,
        Zone::Edges => scheme.zones.edges,
    };
    step.reach.zones().iter().map(|zone| share(zone).as_fraction()).sum::<Fraction>().as_f64()
}
