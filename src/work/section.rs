//! A cut through the paint after each step: what lies in recesses, on faces and on edges, as plain figures.

use crate::colour::space::{self, LinearRgb};
use crate::film::{
    Bench, Coat, Conditions, Figure, Film, Layer, Micrometres, OnTop, SurfaceNow, View, What, surface_now,
};
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
}

/// One coat in a cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stripe {
    /// How thick it lies here, dry.
    pub dry: Micrometres,
    /// What one sees when it is the uppermost: its own colour over what lies beneath, by how well it hides.
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
    (0..scheme.steps.len())
        .map(|position| StepFilm {
            cut: largest(scheme, film.areas(position))
                .map(|area| cut(film.after(position), area, Some(position), &conditions.bench)),
            surfaces: surfaces(film, position, conditions),
        })
        .collect()
}

fn largest(scheme: &Scheme, areas: &[usize]) -> Option<usize> {
    let share = |area: &usize| scheme.areas.get(*area).and_then(|area| area.share);
    areas.iter().copied().max_by(|a, b| share(a).cmp(&share(b)).then(b.cmp(a)))
}

/// The cut through an area at one moment; `fresh` is the step whose stripes are marked.
pub(super) fn cut(view: View<'_, '_>, area: usize, fresh: Option<usize>, bench: &Bench) -> Cut {
    Cut { area, zones: [Zone::Recesses, Zone::Faces, Zone::Edges].map(|zone| stripes(view, area, zone, fresh, bench)) }
}

fn stripes(view: View<'_, '_>, area: usize, zone: Zone, fresh: Option<usize>, bench: &Bench) -> Vec<Stripe> {
    let mut seen: Option<Colour> = None;
    let mut stripes = Vec::new();
    for Layer { coat, dry } in view.layers(area, zone) {
        seen = if coat.is_tinted_clear() {
            seen_through(coat, bench, seen)
        } else {
            laid_over(coat.colour(), coat.cover, seen)
        };
        stripes.push(Stripe {
            dry,
            colour: seen,
            what: coat.what,
            metallic: coat.metallic(),
            fresh: fresh == Some(coat.position),
        });
    }
    stripes
}

/// What one sees through a tinted clear: each channel of light passes the tint as often as there are coats of it.
/// The author's colour of a clear is that of two coats over white, so one coat passes its square root (Beer and Lambert).
fn seen_through(coat: &Coat<'_>, bench: &Bench, under: Option<Colour>) -> Option<Colour> {
    let (Some(own), Some(under)) = (coat.colour(), under) else { return coat.colour().or(under) };
    let coats = coat.wet.0 * coat.cup.coloured / bench.get(Figure::HidingCoat).max(f64::MIN_POSITIVE);
    let (tint, below) = (space::linear(own), space::linear(under));
    let passed = |tint: f64, below: f64| below * tint.powf(coats / 2.0);
    let light =
        LinearRgb::new(passed(tint.red, below.red), passed(tint.green, below.green), passed(tint.blue, below.blue));
    Some(space::shown(light))
}

fn byte(value: f64) -> u8 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "rounded and clamped to 0 ..= 255")]
    let byte = value.round().clamp(0.0, 255.0) as u8;
    byte
}

/// A colour over another by the share that it hides: the paints' own colours, no prediction.
fn laid_over(own: Option<Colour>, cover: f64, under: Option<Colour>) -> Option<Colour> {
    let (Some(own), Some(under)) = (own, under) else { return own.or(under) };
    let mut mixed = [0; 3];
    for (channel, (above, below)) in mixed.iter_mut().zip(own.0.into_iter().zip(under.0)) {
        *channel = byte(cover * f64::from(above) + (1.0 - cover) * f64::from(below));
    }
    Some(Colour(mixed))
}

fn surfaces(film: &Film<'_>, position: usize, conditions: &Conditions) -> Vec<(Vec<usize>, SurfaceNow)> {
    let mut surfaces: Vec<(Vec<usize>, SurfaceNow)> = Vec::new();
    let zones = zones_of(film, position);
    for area in film.areas(position) {
        let Some(now) = surface_now(film.after(position), *area, zones, &conditions.bench) else { continue };
        match surfaces.iter_mut().find(|(_, known)| looks_like(known, &now)) {
            Some((areas, known)) => {
                areas.push(*area);
                known.dry_after = known.dry_after.max(now.dry_after);
                known.cured_after = known.cured_after.max(now.cured_after);
            }
            None => surfaces.push((vec![*area], now)),
        }
    }
    surfaces
}

/// The zones in the order in which they speak for an area after a step: where the step laid its coat comes first.
fn zones_of(film: &Film<'_>, position: usize) -> [Zone; 3] {
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
        dry_after: Time::default(),
        cured_after: Time::default(),
        ..*now
    };
    plain(one) == plain(other)
}
