//! Hands-on minutes where a step does not say: by its stage, for one model and one coat, by how much of the model it goes
//! over, and by the kind of model.

use super::figures::Figure;
use super::own::Bench;
use crate::guide::{MixPart, Model, Scheme, Step};
use crate::measure::SquareCentimetres;
use crate::trade::{Family, Kind, Material, Materials, ModelKind, Reach, Stage, Technique, only_washes};

/// Hands-on minutes for one model and one coat: the author's, or what is usual for the step and the model.
pub fn minutes(scheme: &Scheme, step: &Step, bench: &Bench) -> f64 {
    step.minutes.map_or_else(|| usual_minutes(scheme, step, bench), crate::measure::Fraction::as_f64)
}

/// The usual hands-on minutes for one model and one coat of a step, one of a batch of about ten, to the standard of the
/// table. They grow with the areas that a brush goes over, and with the model: brushwork by its kind and size, what goes
/// over all of it at once by its surface, which is far slower.
pub fn usual_minutes(scheme: &Scheme, step: &Step, bench: &Bench) -> f64 {
    let own = bench.get(Figure::HandsOn);
    if own > 0.0 {
        return own;
    }
    let figure = of_foot_figure(scheme, step, bench);
    let one = bench.get(figure) * of_several(figure, scheme, step, bench);
    let least = bench.get(if scheme.model.is_ground() { Figure::MinutesLeastGround } else { Figure::MinutesLeast });
    rounded(one * of_areas(figure, scheme, step, bench) * foot_figures(figure, step, &scheme.model, bench)).max(least)
}

/// What is only usual is told no finer than anybody looks at the clock.
fn rounded(minutes: f64) -> f64 {
    let step = match minutes {
        ..2.0 => 0.25,
        ..10.0 => 0.5,
        ..30.0 => 1.0,
        ..120.0 => 5.0,
        _ => 10.0,
    };
    (minutes / step).round() * step
}

/// How many times as long as the table's figure a brush takes on the areas of a step. A colour's minutes are for a part of
/// a figure, those of details for a small one, those of washes, edges, drybrushing and varnish for the whole of it; of
/// terrain every tool goes over so much. Where a share is not known, as long.
fn of_areas(figure: Figure, scheme: &Scheme, step: &Step, bench: &Bench) -> f64 {
    let share = |area: &usize| Some(scheme.areas.get(*area)?.share?.as_fraction().as_f64());
    let shares = step.areas.iter().map(share).sum::<Option<f64>>().filter(|_| !step.areas.is_empty());
    let Some(shares) = shares.map(|shares| shares.min(1.0)) else { return 1.0 };
    if scheme.model.is_ground() {
        let neat = scheme.model.kind == Some(ModelKind::Building) && !step.technique.sprays();
        return if neat { of_part(shares, &scheme.model, bench) } else { shares };
    }
    let usual = match figure {
        Figure::MinutesBasecoat | Figure::MinutesLayer | Figure::MinutesGlaze => bench.get(Figure::MinutesColourShare),
        Figure::MinutesDetail => bench.get(Figure::MinutesDetailShare),
        Figure::MinutesShade
        | Figure::MinutesHighlight
        | Figure::MinutesDrybrush
        | Figure::MinutesBrushedVarnish
        | Figure::MinutesFilter
        | Figure::MinutesSprayedColour
        | Figure::MinutesSprayedGround
        | Figure::MinutesSprayedVarnish
        | Figure::MinutesAssemble
        | Figure::MinutesPinWash => 1.0,
        _ => return 1.0,
    };
    let times = shares / usual.max(f64::MIN_POSITIVE);
    // A detail is no longer work for being told by the whole of its area.
    let times = if figure == Figure::MinutesDetail { times.min(1.0) } else { times };
    times.powf(bench.get(Figure::MinutesShareGrowth)).max(bench.get(Figure::MinutesShareLeast))
}

/// What share of the minutes of a whole building a part of it takes. A small one is painted neatly and not with a house
/// brush, and the more slowly the smaller it is; no part takes longer than a larger one, nor than all of the building.
fn of_part(share: f64, model: &Model, bench: &Bench) -> f64 {
    let Some(all) = ground(model, bench).filter(|area| area.0 > 0.0) else { return share };
    let neat = bench.get(Figure::NeatBelow) / all.0;
    let growth = bench.get(Figure::MinutesShareGrowth);
    if share < neat { (neat * (share / neat).powf(growth)).max(share).min(1.0) } else { share }
}

/// The surface of terrain or of a building.
fn ground(model: &Model, bench: &Bench) -> Option<SquareCentimetres> {
    model.surface.or_else(|| bench.guessed_surface(model).map(|(area, _)| area))
}

/// How much of the table's minutes is one step's: what is told for all steps of a kind together is shared out, and two
/// colours that run into each other are laid one after the other.
fn of_several(figure: Figure, scheme: &Scheme, step: &Step, bench: &Bench) -> f64 {
    let same = scheme.steps.iter().filter(|other| other.stage == step.stage && !washes(other)).count();
    let steps = f64::from(u32::try_from(same.max(1)).unwrap_or(u32::MAX));
    let laid = if step.mix.blend.is_some() { 2.0 } else { 1.0 };
    // Iris, pupil and light are one eye.
    let is_spot = |step: &Step| step.reach == Reach::Spots && !step.mix.parts.is_empty();
    if is_spot(step) && is_large(&scheme.model, bench) {
        let beside = |other: &&Step| is_spot(other) && other.areas.iter().any(|area| step.areas.contains(area));
        let spots = scheme.steps.iter().filter(beside).count().max(1);
        return laid / f64::from(u32::try_from(spots).unwrap_or(u32::MAX));
    }
    match figure {
        Figure::MinutesPrepare | Figure::MinutesBasing => laid / steps.min(MOST_SHARED),
        _ => laid,
    }
}

/// The minutes of a base are for paste, paint and grass.
const MOST_SHARED: f64 = 3.0;

/// The minutes for a figure of 28 to 32 mm on foot.
fn of_foot_figure(scheme: &Scheme, step: &Step, bench: &Bench) -> Figure {
    let sprayed = step.technique.sprays();
    let lines = sprayed && step.from.is_none() && matches!(step.reach, Reach::Recesses | Reach::Edges);
    match step.stage {
        Stage::Prepare if washes(step) => Figure::MinutesWashed,
        Stage::Prepare if is_metal(scheme) => Figure::MinutesPrepareMetal,
        Stage::Prepare => Figure::MinutesPrepare,
        Stage::Assemble => Figure::MinutesAssemble,
        Stage::Mask => Figure::MinutesMask,
        Stage::Unmask => Figure::MinutesUnmask,
        Stage::Detail
        | Stage::Basecoat
        | Stage::Layer
        | Stage::Glaze
        | Stage::Highlight
        | Stage::Shade
        | Stage::Basing
            if step.reach == Reach::Spots && !step.mix.parts.is_empty() && !is_large(&scheme.model, bench) =>
        {
            Figure::MinutesSpots
        }
        stage if lines && stage != Stage::Varnish => Figure::MinutesSprayedLines,
        Stage::Undercoat | Stage::Preshade if sprayed => Figure::MinutesSprayedGround,
        // What chips off again is a clear coat, laid as evenly and as quickly.
        Stage::Basecoat if sprayed && is_resist(step) => Figure::MinutesSprayedVarnish,
        Stage::Varnish | Stage::Chip if sprayed => Figure::MinutesSprayedVarnish,
        Stage::Weather if sprayed => Figure::MinutesSprayedColour,
        Stage::Varnish => Figure::MinutesBrushedVarnish,
        Stage::Basecoat | Stage::Shade | Stage::Layer | Stage::Glaze | Stage::Highlight if sprayed => {
            Figure::MinutesSprayedColour
        }
        Stage::Glaze | Stage::Weather if is_filter(step, bench) => Figure::MinutesFilter,
        Stage::Shade if is_drawn(step, bench) => Figure::MinutesLayer,
        Stage::Shade => Figure::MinutesShade,
        _ if step.technique == Technique::Drybrush => Figure::MinutesDrybrush,
        Stage::Undercoat | Stage::Preshade | Stage::Basecoat => Figure::MinutesBasecoat,
        Stage::Layer => Figure::MinutesLayer,
        Stage::Glaze => Figure::MinutesGlaze,
        Stage::Highlight => Figure::MinutesHighlight,
        Stage::Detail => Figure::MinutesDetail,
        Stage::Decal => Figure::MinutesDecal,
        Stage::PanelWash => Figure::MinutesPinWash,
        Stage::Chip | Stage::Weather => Figure::MinutesChip,
        Stage::Pigment => Figure::MinutesPowder,
        Stage::Basing => Figure::MinutesBasing,
    }
}

/// On a figure of 75 mm, named after that height without its headgear, an eye is no dot any more: it is painted with its
/// lids and its light, as any detail is (own estimate: an hour for the eyes of a bust of 1/10).
const NO_DOT_FROM: f64 = 60.0;

/// Whether what is a spot on a figure is painted as a detail, as on a bust.
fn is_large(model: &Model, bench: &Bench) -> bool {
    let is_built = matches!(model.kind, Some(ModelKind::Vehicle | ModelKind::Aircraft)) || model.is_ground();
    !is_built && model.scale.is_some_and(|scale| bench.named_height(scale) >= NO_DOT_FROM)
}

/// Whether a step lays chipping medium.
fn is_resist(step: &Step) -> bool {
    step.mix.parts.iter().any(|part| part.paint.kind == Kind::Resist)
}

/// Whether a model is cast in one piece of metal, which has a seam to file and no parts to glue.
fn is_metal(scheme: &Scheme) -> bool {
    Materials::of(scheme.model.material.as_deref().unwrap_or_default()).has(Material::Metal)
}

/// Whether shadows are drawn with paint as it is, and not washed in.
fn is_drawn(step: &Step, bench: &Bench) -> bool {
    let thin = |kind: Kind| matches!(kind, Kind::Wash | Kind::OneCoat | Kind::Ink | Kind::Clear);
    let washed = step.mix.parts.iter().any(|part| thin(part.paint.kind));
    let floods = step.reach == Reach::All && thinner(step) >= bench.get(Figure::WashFromThinner);
    !washed && !step.mix.parts.is_empty() && !floods
}

/// Whether a step washes the model and does nothing else to it.
fn washes(step: &Step) -> bool {
    let tools = step.tools.iter().flat_map(|tool| [tool.id.as_str(), tool.name.as_str()]);
    let names = tools.chain([step.stem.as_str(), step.title.as_str()]);
    let instruction = step.body.text.get(step.body.start..).unwrap_or_default();
    step.technique != Technique::Blade && only_washes(names, instruction)
}

/// Whether a step draws a veil over everything: what is nearly all thinner, or thin oil or enamel, which a brush spreads in
/// one go. A glaze of water-based paint is built up with care.
fn is_filter(step: &Step, bench: &Bench) -> bool {
    let thinner = thinner(step);
    let is_slow = |part: &MixPart| matches!(part.paint.family, Family::Enamel | Family::Oil);
    let slow = step.mix.parts.iter().any(is_slow);
    let is_wash = step.mix.parts.iter().any(|part| part.paint.kind == Kind::Wash);
    let thin_oil = slow && (is_wash || thinner >= bench.get(Figure::WashFromThinner));
    step.reach == Reach::All && (thin_oil || thinner >= bench.get(Figure::FilterFromThinner))
}

/// The share of a step's mix that is thinner.
fn thinner(step: &Step) -> f64 {
    let amount = |thins: bool| -> f64 {
        let parts = step.mix.parts.iter().filter(|part| !thins || part.paint.kind == Kind::Thinner);
        parts.map(|part| part.amount.as_f64()).sum()
    };
    amount(true) / amount(false).max(f64::MIN_POSITIVE)
}

/// How the minutes of a figure grow with the model.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Growth {
    /// With its surface alone: a spray, a bath, a wash or a clear coat goes over all of it at once.
    Surface,
    /// With its size: what it is built of is no finer on a bust than on a figure.
    Built,
    /// With its size and its kind: a brush paints whatever is on it.
    Painted,
}

impl Growth {
    fn of(figure: Figure, step: &Step) -> Self {
        // One colour over all of it is no painting, and a sponge dabs as it goes.
        let plain = step.stage == Stage::Undercoat || matches!(step.technique, Technique::Sponge | Technique::Cloth);
        match figure {
            _ if plain => Self::Surface,
            Figure::MinutesWashed
            | Figure::MinutesFilter
            | Figure::MinutesShade
            | Figure::MinutesDrybrush
            | Figure::MinutesGlaze
            | Figure::MinutesBrushedVarnish => Self::Surface,
            _ if step.technique.sprays() => Self::Surface,
            Figure::MinutesPrepare
            | Figure::MinutesPrepareMetal
            | Figure::MinutesAssemble
            | Figure::MinutesMask
            | Figure::MinutesSpots
            | Figure::MinutesUnmask => Self::Built,
            _ => Self::Painted,
        }
    }
}

/// Figures named after these heights, in millimetres, take the same time.
const SAME_TIME: (f64, f64) = (28.0, 32.0);

/// Foot figures of that size have so much surface, in cm².
const SAME_SURFACE: (f64, f64) = (10.0, 20.0);

/// How many times as long as a foot figure a model takes.
fn foot_figures(figure: Figure, step: &Step, model: &Model, bench: &Bench) -> f64 {
    if model.is_ground() && figure == Figure::MinutesSpots {
        return 1.0;
    }
    if model.is_ground() {
        let area = ground(model, bench);
        let one = bench.get(Figure::MinutesTerrain).max(f64::MIN_POSITIVE);
        return area.map_or(1.0, |area| area.0 / one).max(LEAST);
    }
    let growth = Growth::of(figure, step);
    let by_surface = |area: SquareCentimetres| beyond(area.0, SAME_SURFACE).powf(bench.get(Figure::MinutesGrowth));
    let is_bust = model.kind == Some(ModelKind::Bust);
    // Head and shoulders are gone over as fast as a figure of that size; others by how much there is of them.
    if growth == Growth::Surface && !is_bust {
        let area = model.surface.or_else(|| bench.guessed_surface(model).map(|(area, _)| area));
        if let Some(area) = area {
            return by_surface(area).max(LEAST);
        }
    }
    let own = if is_bust && growth != Growth::Painted { 1.0 } else { of_kind(model, bench) };
    let size = match (model.scale, model.kind, model.surface) {
        (_, None, Some(area)) => by_surface(area),
        (Some(scale), ..) => beyond(bench.named_height(scale), SAME_TIME),
        (None, ..) => 1.0,
    };
    (own * size).max(LEAST)
}

/// However small a model is, it has to be taken up and put down.
const LEAST: f64 = 0.1;

fn of_kind(model: &Model, bench: &Bench) -> f64 {
    bench.get(match model.kind {
        None | Some(ModelKind::Foot | ModelKind::Terrain | ModelKind::Building) => return 1.0,
        Some(ModelKind::Hero) => Figure::MinutesHero,
        Some(ModelKind::Rider) => Figure::MinutesRider,
        Some(ModelKind::Mount) => Figure::MinutesMount,
        Some(ModelKind::Beast) => Figure::MinutesBeast,
        Some(ModelKind::Vehicle) => Figure::MinutesVehicle,
        Some(ModelKind::Aircraft) => Figure::MinutesAircraft,
        Some(ModelKind::Bust) => Figure::MinutesBust,
    })
}

/// How far a size lies beyond a span, as a factor: 1 within it.
fn beyond(size: f64, (least, most): (f64, f64)) -> f64 {
    if size < least {
        size / least
    } else if size > most {
        size / most
    } else {
        1.0
    }
}
