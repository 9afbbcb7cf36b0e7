//! Hands-on minutes where a step does not say: by its stage, for one model and one coat, and by the kind of model.

use super::figures::Figure;
use super::own::Bench;
use crate::guide::{Model, Step};
use crate::trade::{ModelKind, Stage, Technique};

/// Hands-on minutes for one model and one coat: the author's, or what is usual for the step and the model.
pub fn minutes(step: &Step, model: &Model, bench: &Bench) -> f64 {
    step.minutes.map_or_else(|| usual_minutes(step, model, bench), crate::measure::Fraction::as_f64)
}

/// The usual hands-on minutes for one model and one coat of a step, one of a batch of about ten, to the standard of the
/// table. They grow with the surface and the kind of the model.
pub fn usual_minutes(step: &Step, model: &Model, bench: &Bench) -> f64 {
    let own = bench.get(Figure::HandsOn);
    if own > 0.0 {
        return own;
    }
    bench.get(of_foot_figure(step)) * foot_figures(step, model, bench)
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
