//! Hands-on minutes where a step does not say: by its stage, for one model and one coat, by how much of the model it goes
//! over, and by the kind of model.

use super::figures::Figure;
use super::own::Bench;
use crate::guide::{Model, Scheme, Step};
use crate::trade::{ModelKind, Stage, Technique};

/// Hands-on minutes for one model and one coat: the author's, or what is usual for the step and the model.
pub fn minutes(scheme: &Scheme, step: &Step, bench: &Bench) -> f64 {
    step.minutes.map_or_else(|| usual_minutes(scheme, step, bench), crate::measure::Fraction::as_f64)
}

/// The usual hands-on minutes for one model and one coat of a step, one of a batch of about ten, to the standard of the
/// table. They grow with the areas that a brush goes over, and with the surface and the kind of the model.
pub fn usual_minutes(scheme: &Scheme, step: &Step, bench: &Bench) -> f64 {
    let own = bench.get(Figure::HandsOn);
    if own > 0.0 {
        return own;
    }
    let figure = of_foot_figure(step);
    bench.get(figure) * of_areas(figure, scheme, step, bench) * foot_figures(step, &scheme.model, bench)
}

/// How many times as long as the table's figure a brush takes on the areas of a step. A colour's minutes are for a part of
/// a figure, those of washes, edges, drybrushing and varnish for the whole of it. Where a share is not known, as long.
fn of_areas(figure: Figure, scheme: &Scheme, step: &Step, bench: &Bench) -> f64 {
    let usual = match figure {
        Figure::MinutesBasecoat | Figure::MinutesLayer => bench.get(Figure::MinutesColourShare),
        Figure::MinutesShade
        | Figure::MinutesHighlight
        | Figure::MinutesDrybrush
        | Figure::MinutesBrushedVarnish
        | Figure::MinutesPinWash => 1.0,
        _ => return 1.0,
    };
    if step.technique.sprays() || step.areas.is_empty() {
        return 1.0;
    }
    let share = |area: &usize| Some(scheme.areas.get(*area)?.share?.as_fraction().as_f64());
    let Some(shares) = step.areas.iter().map(share).sum::<Option<f64>>() else { return 1.0 };
    let times = shares.min(1.0) / usual.max(f64::MIN_POSITIVE);
    times.powf(bench.get(Figure::MinutesShareGrowth)).max(bench.get(Figure::MinutesShareLeast))
}

/// The minutes for a figure of 28 to 32 mm on foot.
fn of_foot_figure(step: &Step) -> Figure {
    let sprayed = step.technique.sprays();
    match step.stage {
        Stage::Prepare => Figure::MinutesPrepare,
        Stage::Assemble => Figure::MinutesAssemble,
        Stage::Mask | Stage::Unmask => Figure::MinutesMask,
        Stage::Undercoat | Stage::Preshade if sprayed => Figure::MinutesSprayedGround,
        Stage::Varnish if sprayed => Figure::MinutesSprayedVarnish,
        Stage::Varnish => Figure::MinutesBrushedVarnish,
        Stage::Undercoat | Stage::Preshade | Stage::Basecoat => Figure::MinutesBasecoat,
        Stage::Shade => Figure::MinutesShade,
        _ if step.technique == Technique::Drybrush => Figure::MinutesDrybrush,
        Stage::Layer | Stage::Glaze => Figure::MinutesLayer,
        Stage::Highlight => Figure::MinutesHighlight,
        Stage::Detail => Figure::MinutesDetail,
        Stage::Decal => Figure::MinutesDecal,
        Stage::PanelWash => Figure::MinutesPinWash,
        Stage::Chip | Stage::Weather => Figure::MinutesChip,
        Stage::Pigment => Figure::MinutesPowder,
        Stage::Basing => Figure::MinutesBasing,
    }
}

/// Figures named after these heights, in millimetres, take the same time.
const SAME_TIME: (f64, f64) = (28.0, 32.0);

/// Foot figures of that size have so much surface, in cm².
const SAME_SURFACE: (f64, f64) = (10.0, 20.0);

/// How many times as long as a foot figure a model takes.
fn foot_figures(step: &Step, model: &Model, bench: &Bench) -> f64 {
    if matches!(model.kind, Some(ModelKind::Terrain | ModelKind::Building)) {
        let area = model.surface.or_else(|| bench.guessed_surface(model).map(|(area, _)| area));
        let one = bench.get(Figure::MinutesTerrain).max(f64::MIN_POSITIVE);
        return area.map_or(1.0, |area| area.0 / one).max(LEAST);
    }
    // A spray goes over head and shoulders as fast as over a figure of that size.
    let own = if model.kind == Some(ModelKind::Bust) && step.technique.sprays() { 1.0 } else { of_kind(model, bench) };
    let size = match (model.scale, model.kind, model.surface) {
        (_, None, Some(area)) => beyond(area.0, SAME_SURFACE).powf(bench.get(Figure::MinutesGrowth)),
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
