//! What is checked about amounts.

use super::{ModelSurface, StepNeed, SurfaceSource};
use crate::bench::{Bench, Figure};
use crate::guide::{Scheme, Step};
use crate::report::{Check, Finding, Group, Level};
use crate::trade::ModelKind;

/// Every check of this layer.
pub const CHECKS: &[&Check] = &[&SURFACE_GUESSED, &SURFACE_FAR_OFF, &TOO_FEW_DROPS];

/// The surface is known.
pub(crate) static SURFACE_GUESSED: Check = Check {
    id: "surface-guessed",
    level: Level::Note,
    about: "a model gives its surface, or a mesh to measure it from",
    why: "a surface that is guessed from scale and kind may be half or twice the true one, and every amount with it",
    group: Group::Bookkeeping,
    safety: false,
};

/// The surface is that of such a model.
pub(crate) static SURFACE_FAR_OFF: Check = Check {
    id: "surface-far-off",
    level: Level::Note,
    about: "a surface that an author gives fits the scale and the kind of the model",
    why: "a slip from mm² to cm², or a dot that was left out, makes every amount and every list that many times too large",
    group: Group::Bookkeeping,
    safety: false,
};

/// A mix can be counted out for what is needed of it.
pub(crate) static TOO_FEW_DROPS: Check = Check {
    id: "too-few-drops",
    level: Level::Note,
    about: "the ratio of a lot for all models can be counted out in drops without making many times what is needed",
    why: "a drop is the least that can be measured, so a mix of many parts to one makes a cupful of which little is used",
    group: Group::Bookkeeping,
    safety: false,
};

/// What is to be said of the amounts of a scheme of which the guide's armies hold so many models.
pub fn check(
    models: u32,
    scheme: &Scheme,
    surface: Option<&ModelSurface>,
    needs: &[Option<StepNeed>],
    bench: &Bench,
) -> Vec<Finding> {
    let too_large = bench.get(Figure::LotTooLarge);
    let steps =
        scheme.steps.iter().zip(needs).filter_map(|(step, need)| too_few(step, need.as_ref()?, models, too_large));
    let of_surface = match surface {
        Some(surface) => guessed(scheme, surface).or_else(|| far_off(scheme, bench)),
        None => unknown(scheme),
    };
    of_surface.into_iter().chain(steps).collect()
}

/// A scheme with mixes whose model says nothing of its size.
fn unknown(scheme: &Scheme) -> Option<Finding> {
    let mixes = scheme.steps.iter().any(|step| !step.mix.parts.is_empty());
    // A scale or a mesh that can't be read, or that measures nothing, is told of as such.
    let sized = scheme.model.surface_unread || scheme.model.scale.is_some() || scheme.model.mesh.is_some();
    if !mixes || sized {
        return None;
    }
    let message = "nothing says how large the model is, so no amount of a paint can be worked out";
    let mend = "write 'model: {scale: 28 mm, kind: foot}' with what it is, or its 'surface'";
    // There is no model whose place could be named.
    Some(Finding::new(&SURFACE_GUESSED, scheme.place, message, mend))
}

/// A figure has no surface so many times that of its kind, or so small a part of it: what is between is a large or a small one.
/// Own estimate.
const FAR_OFF: f64 = 12.0;

/// What a scale tells the size of: a vehicle is a cart or a battleship, and ground is as large as it is.
const SIZED_BY_SCALE: &[ModelKind] =
    &[ModelKind::Foot, ModelKind::Hero, ModelKind::Rider, ModelKind::Mount, ModelKind::Bust];

fn far_off(scheme: &Scheme, bench: &Bench) -> Option<Finding> {
    let model = &scheme.model;
    let kind = model.kind.filter(|kind| SIZED_BY_SCALE.contains(kind))?;
    let (own, (usual, _)) = (model.surface?.0, bench.guessed_surface(model)?);
    let times = own / usual.0.max(f64::MIN_POSITIVE);
    if (1.0 / FAR_OFF..=FAR_OFF).contains(&times) {
        return None;
    }
    let (own, usual) = (crate::measure::exact(own, 1), crate::measure::guessed(usual.0));
    let of = model.scale?;
    let message =
        format!("a surface of {own} cm² is far from the {usual} cm² that a model of {of} and kind '{kind}' has");
    let mend = "see whether 'surface' is in the right unit, or write another 'kind'";
    Some(Finding::new(&SURFACE_FAR_OFF, model.place, message, mend))
}

fn guessed(scheme: &Scheme, surface: &ModelSurface) -> Option<Finding> {
    let SurfaceSource::Guessed(kind) = surface.source else { return None };
    if scheme.model.surface_unread {
        return None;
    }
    let scale = scheme.model.scale?;
    let area = crate::measure::guessed(surface.area.0);
    let message = format!("the surface is guessed: {area} cm² for a model of {scale} and kind '{kind}'");
    let mend = "write 'surface: …', or 'mesh: …' with the file it was printed from, or a better 'kind'";
    Some(Finding::new(&SURFACE_GUESSED, scheme.model.place, message, mend))
}

/// A lot for all models whose ratio asks for many times what is needed. On a palette everybody mixes more than is needed.
fn too_few(step: &Step, need: &StepNeed, models: u32, too_large: f64) -> Option<Finding> {
    if !need.together || !step.mix.is_mixed() || !step.mix.pots.is_empty() {
        return None;
    }
    let amounts = need.for_models(models.max(1));
    let (wanted, least) = (amounts.need.likely.0, amounts.lot.likely.0);
    if amounts.out.times != 1 || amounts.out.counts.is_empty() || least < too_large * wanted {
        return None;
    }
    // That drops of other sizes make longer counts, many of them by a size that the author never gave, is no fault of the ratio.
    if amounts.out.sized && by_its_parts(need) < too_large * wanted {
        return None;
    }
    let counts: Vec<String> = amounts.out.counts.iter().map(u32::to_string).collect();
    let message = format!(
        "{wanted:.2} ml of this mix are needed, and the least that can be counted out is {} drops, {least:.1} ml",
        counts.join(" + ")
    );
    let mend = "mix a weaker ratio in two goes, or thin a drop of the strong mix with more of the other";
    Some(Finding::new(&TOO_FEW_DROPS, step.places.paints, message, mend))
}

/// What a mix comes to if each of its parts is a drop, in ml.
fn by_its_parts(need: &StepNeed) -> f64 {
    let parts = need.measure.iter().flat_map(|measure| &measure.marks.parts);
    parts.zip(&need.portions).map(|(part, portion)| f64::from(*part) * portion.unit.0).sum()
}
