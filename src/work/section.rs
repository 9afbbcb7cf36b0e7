//! A cut through the paint after each step: what lies in recesses, on faces and on edges, as plain figures.

use std::collections::BTreeMap;

use crate::bench::Micrometres;
use crate::colour::Stack;
use crate::film::{self, Appearance, Coat, Conditions, Film, Layer, OnTop, SurfaceNow, What, surface_now};
use crate::guide::Scheme;
use crate::measure::{Colour, Time};
use crate::trade::{Reach, Technique, Zone};

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
    /// Its coats, from the bottom up.
    pub coats: Vec<CutCoat>,
    /// Whether a mask lies on it.
    pub masked: bool,
    /// Whether it was chipped.
    pub chipped: bool,
    /// Whether the step changed anything of it.
    pub changed: bool,
}

/// One step's coats in a cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutCoat {
    /// The step that laid them, by its place in the scheme's list.
    pub step: usize,
    /// How thick they lie in recesses, on faces and on edges, dry; zero where they do not lie.
    pub dry: [Micrometres; 3],
    /// What one sees where they are uppermost, predicted; `None` where it is unknown.
    pub colour: Option<Colour>,
    /// What they are.
    pub what: What,
    /// What put them on.
    pub technique: Technique,
    /// Whether they came from one side, and lie only on what looks that way.
    pub aimed: bool,
    /// Whether they lie in single places alone.
    pub spots: bool,
    /// Whether this very step laid them.
    pub fresh: bool,
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

/// The cut through an area after the step at a place of the order, whose own coats are marked.
fn cut(film: &Film<'_>, appearance: &Appearance, area: usize, position: usize) -> Cut {
    let (before, after) = (film.before(position), film.after(position));
    let coats = coats(film, appearance, area, position);
    let (masked, chipped) = (after.mask(area).is_some(), after.chips(area).next().is_some());
    let worked = before.mask(area).is_some() != masked || before.chips(area).count() != after.chips(area).count();
    let changed = worked || coats.iter().any(|coat| coat.fresh);
    Cut { area, coats, masked, chipped, changed }
}

fn coats(film: &Film<'_>, appearance: &Appearance, area: usize, position: usize) -> Vec<CutCoat> {
    let after = film.after(position);
    let mut laid: BTreeMap<usize, CutCoat> = BTreeMap::new();
    let new = |coat: &Coat<'_>, colour: Option<Colour>| CutCoat {
        step: coat.step,
        dry: [Micrometres::default(); 3],
        colour,
        what: coat.what,
        technique: coat.technique,
        aimed: coat.from.is_some(),
        spots: coat.reach == Reach::Spots,
        fresh: coat.position == position,
    };
    for (at, zone) in [Zone::Faces, Zone::Edges, Zone::Recesses].into_iter().zip([1, 2, 0]).map(|(zone, at)| (at, zone))
    {
        for Layer { coat, dry } in after.layers(area, zone) {
            let of_zone = || film.own_look(coat, (area, zone), appearance).stack().map(Stack::colour);
            // Flecks lie on the colour and do not change it: what is named is their own.
            let own = || appearance.own_colour(coat.position);
            let seen = || if film::lies_as_flecks(coat) { own() } else { of_zone() };
            laid.entry(coat.position).or_insert_with(|| new(coat, seen())).dry[at] = dry;
        }
    }
    for coat in after.spots(area).chain(after.decals(area)) {
        let entry = laid.entry(coat.position).or_insert_with(|| new(coat, appearance.own_colour(coat.position)));
        entry.dry[1] = coat.dry;
    }
    laid.into_values().collect()
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
    surfaces.shrink_to_fit();
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
