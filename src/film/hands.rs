//! Hands-on minutes where a step does not say: by its stage, for one model and one coat.

use crate::bench::{Bench, Figure, Minutes};
use crate::guide::Step;
use crate::measure::Fraction;
use crate::trade::Stage;

/// The usual hands-on minutes for a model of 28 to 32 mm on foot, one of a batch of about ten, to the standard of the table.
pub fn usual_minutes(step: &Step, bench: &Bench) -> f64 {
    let own = bench.get(Figure::HandsOn);
    if own > 0.0 {
        return own;
    }
    let sprayed = step.technique.sprays();
    bench.get(match step.stage {
        Stage::Prepare => Figure::MinutesPrepare,
        Stage::Mask | Stage::Unmask => Figure::MinutesMask,
        Stage::Undercoat | Stage::Preshade if sprayed => Figure::MinutesSprayedGround,
        Stage::Varnish if sprayed => Figure::MinutesSprayedVarnish,
        Stage::Varnish => Figure::MinutesBrushedVarnish,
        Stage::Undercoat | Stage::Preshade | Stage::Basecoat => Figure::MinutesBasecoat,
        Stage::Shade => Figure::MinutesShade,
        _ if step.technique == crate::trade::Technique::Drybrush => Figure::MinutesDrybrush,
        Stage::Layer | Stage::Glaze => Figure::MinutesLayer,
        Stage::Highlight => Figure::MinutesHighlight,
        Stage::Detail => Figure::MinutesDetail,
        Stage::Decal => Figure::MinutesDecal,
        Stage::PanelWash => Figure::MinutesPinWash,
        Stage::Chip | Stage::Weather => Figure::MinutesChip,
        Stage::Pigment => Figure::MinutesPowder,
        Stage::Basing => Figure::MinutesBasing,
    })
}

/// Hands-on time of a step for one model, all coats: what the author says, or what is usual.
pub(super) fn hands_on(step: &Step, bench: &Bench) -> Minutes {
    let each = step.minutes.map_or_else(|| usual_minutes(step, bench), Fraction::as_f64);
    Minutes(each * f64::from(step.coats))
}
