//! How much of a model's surface a step touches.

use super::surface::ModelSurface;
use crate::bench::{Bench, Figure};
use crate::film::{Coat, Film, What, aimed_share, film_figure, lies_as_flecks};
use crate::guide::{Area, Scheme, Step};
use crate::measure::{Fraction, SquareCentimetres};
use crate::trade::{Kind, Planting, Reach, Stage, Technique, Zone, grass_in, plantings};

/// What a step touches: the product counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Touched {
    /// The surface that the shares are of, the base with it where the step goes over everything.
    pub(super) area: SquareCentimetres,
    /// How much of it is the base.
    pub(super) base: SquareCentimetres,
    /// Of this surface, the areas that it reaches.
    pub(super) areas: f64,
    /// Of these areas, what it touches.
    pub(super) zones: f64,
    /// Whether it only draws lines or spots, whose share is a rough guess.
    pub(super) fine: bool,
}

/// What the step at a position touches; `None` where an area's share is not known.
pub(super) fn touched(
    film: &Film<'_>,
    position: usize,
    step: &Step,
    surface: &ModelSurface,
    bench: &Bench,
) -> Option<Touched> {
    let scheme = film.scheme();
    let reached = film.areas(position);
    if on_base_alone(scheme, step, reached)
        && let Some(touched) = base(step, surface, bench)
    {
        return Some(touched);
    }
    let coat = film.coat(position);
    let joins = coat.is_none() && is_joined(step);
    if reached.is_empty() {
        let areas = if step.stage == Stage::Basing { bench.get(Figure::BaseShare) } else { 1.0 };
        let zones = if joins { bench.get(Figure::JointShare) } else { 1.0 };
        return Some(Touched { area: surface.area, base: SquareCentimetres(0.0), areas, zones, fine: joins });
    }
    let shares = reached
        .iter()
        .map(|area| Some(scheme.areas.get(*area)?.share?.as_fraction().as_f64() * free(film, position, step, *area)));
    let areas = shares.sum::<Option<f64>>()?.min(1.0);
    let figure = coat.map(|coat| film_figure(step, coat.what, &coat.cup, bench));
    let zones = zones(scheme, step);
    let lines = matches!(step.reach, Reach::Edges | Reach::Recesses);
    let (zones, fine) = match (coat.map(|coat| coat.what), figure, step.reach) {
        (Some(What::Decal), ..) => (bench.get(Figure::DecalShare), true),
        _ if joins => (bench.get(Figure::JointShare), true),
        _ if sets_plants(step) => (bench.get(Figure::TuftShare), true),
        // A skin over walls and ground is no filler in a gap.
        (Some(What::Filler), ..) if step.deep.is_some() || is_built_up(scheme) => (zones, false),
        (Some(What::Filler), ..) => (bench.get(Figure::FillerShare), true),
        (Some(What::Powder), ..) if step.reach != Reach::Spots => (zones, false),
        (_, _, Reach::Spots) => (bench.get(Figure::SpotsShare), true),
        (_, Some(Figure::WetLine), _) if lines => (zones * bench.get(Figure::LineShare), true),
        // What is shown as flecks is bought as flecks.
        (_, Some(Figure::WetLayer | Figure::WetLine), _) if let Some(share) = flecked(film, coat) => {
            (zones * bench.get(share), true)
        }
        (_, Some(Figure::WetPinWash), _) => (zones * bench.get(Figure::PinWashShare), true),
        // The film of drybrushing is an average over the whole area.
        (_, Some(Figure::WetDrybrush | Figure::WetOverbrush), _) => (1.0, false),
        _ => (zones, false),
    };
    let zones = of_part(scheme, step, zones, bench);
    let everything = step.all_over && step.reach == Reach::All && !fine && step.stage != Stage::Mask;
    let beside = if everything { surface.beside() } else { SquareCentimetres(0.0) };
    let area = surface.area.0 + beside.0;
    Some(Touched {
        area: SquareCentimetres(area),
        base: beside,
        // A mask covers areas of the model, and never the base beside it.
        areas: if area > 0.0 { (surface.area.0 * areas + beside.0) / area } else { areas },
        zones: zones.clamp(0.0, 1.0),
        fine,
    })
}

/// What of the zones a step takes paint for where it goes over a part of them: the side that it comes from, what a mask covers,
/// for masking fluid lies where the mask does.
fn of_part(scheme: &Scheme, step: &Step, zones: f64, bench: &Bench) -> f64 {
    let aimed = if step.from.is_some() { aimed(scheme, step, bench) } else { 1.0 };
    let covered = step.covers.filter(|_| step.stage == Stage::Mask).map_or(1.0, |share| share.as_fraction().as_f64());
    zones * aimed * covered
}

/// How much of an area a step takes paint for, from 0 to 1: what lies under a mask gets nothing of a brush. A can is not
/// aimed between pieces of it, and of what an airbrush sprays some half lands on it.
fn free(film: &Film<'_>, position: usize, step: &Step, area: usize) -> f64 {
    match step.technique {
        technique if technique == Technique::SprayCan || film.coat(position).is_none() => 1.0,
        Technique::Airbrush => f64::midpoint(1.0, film.before(position).free(area)),
        _ => film.before(position).free(area),
    }
}

/// Whether a step is about the base of the model and nothing else.
fn on_base_alone(scheme: &Scheme, step: &Step, reached: &[usize]) -> bool {
    if reached.is_empty() {
        return step.stage == Stage::Basing;
    }
    let mut areas = reached.iter().filter_map(|area| scheme.areas.get(*area));
    areas.all(Area::is_base) && step.stage == Stage::Basing
}

/// The base of a known size: its top for what is spread or poured on it.
fn base(step: &Step, surface: &ModelSurface, bench: &Bench) -> Option<Touched> {
    let base = surface.base?;
    let kind = step.mix.parts.first().map(|part| part.paint.kind);
    let spread = step.deep.is_some() || matches!(kind, Some(Kind::Texture | Kind::Glue));
    let set = sets_plants(step);
    // The rim is the base's edge, and its top what a brush on the faces meets.
    let rim = SquareCentimetres((base.all.0 - base.top.0).max(0.0));
    let (area, zones) = match (set, spread, step.reach) {
        (true, ..) => (base.top, bench.get(Figure::TuftShare)),
        (false, true, _) => (base.top, bench.get(Figure::BaseCovered)),
        (false, false, Reach::Edges) => (rim, 1.0),
        (false, false, Reach::Faces) => (base.top, 1.0),
        (false, false, _) => (base.all, 1.0),
    };
    Some(Touched { area, base: area, areas: 1.0, zones: zones.clamp(0.0, 1.0), fine: set })
}

/// The share of an area that flecks, streaks or freehand take, where a coat leaves what lies between them as it was. A detail
/// on what has no colour yet is its colour.
fn flecked(film: &Film<'_>, coat: Option<&Coat<'_>>) -> Option<Figure> {
    let coat = coat.filter(|coat| lies_as_flecks(coat))?;
    let before = film.before(coat.position);
    let colours = |coat: &Coat<'_>| matches!(coat.what, What::Colour | What::Shade | What::Tint);
    let is_coloured = |area: &usize| before.coats(*area, Zone::Faces).any(&colours);
    match coat.stage {
        Stage::Detail if film.areas(coat.position).iter().all(is_coloured) => Some(Figure::DetailShare),
        Stage::Detail => None,
        _ => Some(Figure::ChippedShare),
    }
}

/// Whether the model is ground or a building, which get skins of plaster and paste.
fn is_built_up(scheme: &Scheme) -> bool {
    scheme.model.is_ground()
}

/// Whether what a step lays runs along joints: parts are put together, or glued where they are got ready.
pub(super) fn is_joined(step: &Step) -> bool {
    let glue = || step.mix.parts.first().is_some_and(|part| part.paint.kind == Kind::Glue);
    step.stage == Stage::Assemble || (step.stage == Stage::Prepare && glue())
}

/// Whether a step glues plants on one by one, each on a dab. Its tools say it first, then its title, its instruction and at
/// last the name of its file: what the plants are called there decides.
fn sets_plants(step: &Step) -> bool {
    let glues = step.stage == Stage::Basing && step.mix.parts.iter().all(|part| part.paint.kind == Kind::Glue);
    if !glues || step.mix.parts.is_empty() {
        return false;
    }
    let of_tools = plantings(step.tools.iter().map(|tool| tool.name.as_str()));
    let instruction = step.body.text.get(step.body.start..).unwrap_or_default();
    let mut told = [of_tools, plantings([step.title.as_str()]), grass_in(instruction), plantings([step.stem.as_str()])]
        .into_iter()
        .filter(|named| !named.is_empty());
    told.next().is_some_and(|named| named.iter().all(|one| *one == Planting::Set))
}

fn zones(scheme: &Scheme, step: &Step) -> f64 {
    step.reach.zones().iter().map(|zone| share(scheme, *zone)).sum::<Fraction>().as_f64()
}

fn share(scheme: &Scheme, zone: Zone) -> Fraction {
    match zone {
        Zone::Recesses => scheme.zones.recesses.as_fraction(),
        Zone::Faces => scheme.zones.faces.as_fraction(),
        Zone::Edges => scheme.zones.edges.as_fraction(),
    }
}

/// How much of the zones of a step looks to the side from which it comes. A brush gets into hollows as well as onto faces.
fn aimed(scheme: &Scheme, step: &Step, bench: &Bench) -> f64 {
    let met = |zone: Zone| aimed_share(if step.technique.sprays() { zone } else { Zone::Faces }, bench);
    let zones = || step.reach.zones().iter().map(|zone| (share(scheme, *zone).as_f64(), met(*zone)));
    let all: f64 = zones().map(|(share, _)| share).sum();
    let looks: f64 = zones().map(|(share, aimed)| share * aimed).sum();
    if all > 0.0 { looks / all } else { aimed_share(Zone::Faces, bench) }
}
