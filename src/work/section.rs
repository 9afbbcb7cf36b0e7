//! A cut through the paint after each step: what lies in recesses, on faces and on edges, as plain figures.

use crate::bench::Micrometres;
use crate::film::{Appearance, Conditions, Film, Layer, OnTop, SurfaceNow, View, What, surface_now};
use crate::guide::Scheme;
use crate::measure::{Colour, Time};
use crate::trade::{Reach, Zone};

/// The film after one step.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StepFilm {
    /// The cut through the step's largest area, if the step has one.
    pub cut: Option<Cut>,
    /// What a painter finds on each of the step's areas; areas that look the same stand together.
    pub surfaces: Vec<(Vec<usize>, SurfaceNow)>,
}

/// A cut through one area.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// The area, by its position in the scheme's list.
    pub area: usize,
    /// The stripes of recesses, faces and edges, from the bottom up.
    pub zones: [Vec<Stripe>; 3],
    /// The predicted colours of recesses, faces and edges; `None` where nothing lies or it is unknown.
    pub colours: [Option<Colour>; 3],
}

/// One coat in a cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stripe {
    /// How thick it lies here, dry.
    pub dry: Micrometres,
    /// What one sees when it is the uppermost, predicted; `None` where it is unknown.
    pub colour: Option<Colour>,
    /// What it is.
    pub what: What,
    /// Whether metal flakes make it shine.
    pub metallic: bool,
    /// Whether this very step laid it.
    pub fresh: bool,
}

impl Cut {
    /// How thick all stripes of a zone are together, in µm.
    pub fn build(&self, zone: Zone) -> f64 {
        self.zones[zone as usize].iter().map(|stripe| stripe.dry.0).sum()
    }
}

/// The film after each step of a scheme, in the order of the steps.
pub(super) fn sections(scheme: &Scheme, film: &Film<'_>, conditions: &Conditions) -> Vec<StepFilm> {
    let appearance = film.appearance(conditions);
    let cut = |position: usize| Some(cut(film, appearance, largest(scheme, film.areas(position))?, position));
    let of_step = |position| StepFilm { cut: cut(position), surfaces: surfaces(film, position, conditions) };
    (0..scheme.steps.len()).map(of_step).collect()
}

/// The largest of some areas of a scheme, the first of equals.
pub(super) fn largest(scheme: &Scheme, areas: &[usize]) -> Option<usize> {
    let share = |area: &usize| scheme.areas.get(*area).and_then(|area| area.share);
    areas.iter().copied().max_by(|a, b| share(a).cmp(&share(b)).then(b.cmp(a)))
}

/// The cut through an area after the step at a place of the order, whose own stripes are marked.
fn cut(film: &Film<'_>, appearance: &Appearance, area: usize, position: usize) -> Cut {
    let zones = [Zone::Recesses, Zone::Faces, Zone::Edges];
    Cut {
        area,
        zones: zones.map(|zone| stripes(film.after(position), appearance, area, zone, position)),
        colours: zones.map(|zone| appearance.colour_after(position, area, zone)),
    }
}

fn stripes(view: View<'_, '_>, appearance: &Appearance, area: usize, zone: Zone, position: usize) -> Vec<Stripe> {
    let stripe = |Layer { coat, dry }: Layer<'_, '_>| Stripe {
        dry,
        colour: appearance.colour_after(coat.position, area, zone),
        what: coat.what,
        metallic: coat.metallic(),
        fresh: coat.position == position,
    };
    view.layers(area, zone).map(stripe).collect()
}

fn surfaces(film: &Film<'_>, position: usize, conditions: &Conditions) -> Vec<(Vec<usize>, SurfaceNow)> {
    let mut surfaces: Vec<(Vec<usize>, SurfaceNow)> = Vec::new();
    let zones = zones_of(film, position);
    for area in film.areas(position) {
        let Some(now) = surface_now(film.after(position), *area, zones, &conditions.bench) else { continue };
        match surfaces.iter_mut().find(|(_, known)| looks_like(known, &now)) {
            Some((areas, known)) => {
                areas.push(*area);
                known.cured_after = known.cured_after.max(now.cured_after);
            }
            None => surfaces.push((vec![*area], now)),
        }
    }
    surfaces
}

/// The zones in the order in which they speak for an area after a step: where the step laid its coat comes first.
pub(super) fn zones_of(film: &Film<'_>, position: usize) -> [Zone; 3] {
    match film.step(position).map(|step| step.reach) {
        Some(Reach::Recesses) => [Zone::Recesses, Zone::Faces, Zone::Edges],
        Some(Reach::Edges) => [Zone::Edges, Zone::Faces, Zone::Recesses],
        _ => [Zone::Faces, Zone::Edges, Zone::Recesses],
    }
}

/// Whether two surfaces are the same to the eye, whatever step laid what is under them.
fn looks_like(one: &SurfaceNow, other: &SurfaceNow) -> bool {
    let plain = |now: &SurfaceNow| SurfaceNow {
        top: OnTop { step: 0, ..now.top },
        under: now.under.map(|under| OnTop { step: 0, ..under }),
        cured_after: Time::default(),
        ..*now
    };
    plain(one) == plain(other)
}
