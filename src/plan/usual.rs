//! Hands-on minutes where a step does not say: by its stage, for one model and one coat.

use super::Seconds;
use crate::bench::{Bench, Figure};
use crate::guide::Step;
use crate::trade::Stage;

/// The usual hands-on minutes for a model of 28 to 32 mm on foot, one of a batch of about ten, to the standard of the table.
pub fn usual_minutes(step: &Step, bench: &Bench) -> f64 {
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

/// Hands-on time for one model and one coat, in whole seconds.
pub(super) fn each(step: &Step, bench: &Bench) -> Seconds {
    match step.minutes {
        Some(minutes) => {
            let (over, under) = minutes.terms();
            over.saturating_mul(60).div_ceil(under.max(1))
        }
        None => Seconds::from(crate::bench::Minutes(usual_minutes(step, bench)).as_time().as_seconds()),
    }
}
