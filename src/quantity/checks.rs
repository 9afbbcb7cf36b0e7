//! What is checked about amounts.

use super::{Laying, ModelSurface, StepNeed, SurfaceSource, drops};
use crate::guide::{Scheme, Step};
use crate::measure::Millilitres;
use crate::report::{Check, Finding, Group, Level};

/// Every check of this layer.
pub const CHECKS: &[&Check] = &[&SURFACE_GUESSED, &TOO_FEW_DROPS];

/// The surface is known.
pub(crate) static SURFACE_GUESSED: Check = Check {
    id: "surface-guessed",
    level: Level::Note,
    about: "a model gives its surface, or a mesh to measure it from",
    why: "a surface that is guessed from scale and kind may be half or twice the true one, and every amount with it",
    group: Group::Bookkeeping,
    safety: false,
};

/// A mix is large enough to be measured in drops.
pub(crate) static TOO_FEW_DROPS: Check = Check {
    id: "too-few-drops",
    level: Level::Note,
    about: "a lot for all models, or a cup of the airbrush, can be measured in six drops or more, one at least of each line",
    why: "one drop more or less is otherwise a sixth of the mix and more, and the next mix is another colour",
    group: Group::Bookkeeping,
    safety: false,
};

/// What is to be said of the amounts of a scheme of which the guide's armies hold so many models.
pub fn check(models: u32, scheme: &Scheme, surface: Option<&ModelSurface>, needs: &[Option<StepNeed>]) -> Vec<Finding> {
    let steps = scheme.steps.iter().zip(needs).filter_map(|(step, need)| too_few(step, need.as_ref()?, models));
    surface.and_then(|surface| guessed(scheme, surface)).into_iter().chain(steps).collect()
}

fn guessed(scheme: &Scheme, surface: &ModelSurface) -> Option<Finding> {
    let SurfaceSource::Guessed(kind) = surface.source else { return None };
    if scheme.model.surface_unread {
        return None;
    }
    let scale = scheme.model.scale?;
    let message = format!("the surface is guessed: {:.0} cm² for a model of {scale} and kind '{kind}'", surface.area.0);
    let mend = "write 'surface: …', or 'mesh: …' with the file it was printed from, or a better 'kind'";
    Some(Finding::new(&SURFACE_GUESSED, scheme.model.place, message, mend))
}

/// A lot or a cup of so few drops that its ratio is chance. On a palette nobody counts, and mixes more than is needed.
fn too_few(step: &Step, need: &StepNeed, models: u32) -> Option<Finding> {
    let measured = need.together || matches!(need.sum.laying, Laying::Airbrush(_));
    if !measured || !step.mix.is_mixed() {
        return None;
    }
    let amounts = need.for_models(models.max(1));
    let one = amounts.lot.likely.0 / if need.together { 1.0 } else { f64::from(amounts.loads.max(1)) };
    let dropped = drops(&need.portions, Millilitres(one)).filter(super::Dropped::too_few)?;
    let counts: Vec<String> = dropped.counts.iter().map(u32::to_string).collect();
    let message = format!("what is needed of this mix, {one:.2} ml, comes to {} drops", counts.join(" + "));
    let mend = "mix more than you need, so that every line gets its drops, or mix a weaker ratio in two goes";
    Some(Finding::new(&TOO_FEW_DROPS, step.places.paints, message, mend))
}
