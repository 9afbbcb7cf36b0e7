//! **Work**: everything that is computed about a scheme, from the guide alone.
//!
//! A scheme is worked independently of the others: that is what runs in parallel.

mod beside;
mod brush_out;
mod glance;
mod kept;
mod ladder;
mod looks;
mod outlook;
mod plans;
mod rounds;
mod section;
mod seen;
mod sitter;
mod sittings;
mod tones;
mod value;
mod versions;
mod waiting;
mod worked;

use std::sync::Arc;

use rayon::prelude::*;

pub use beside::beside;
pub use brush_out::{BrushOut, BrushOuts, brush_outs, coats_on_card};
pub use glance::Glance;
pub use kept::KeptWork;
pub use ladder::{Ladder, Rung};
pub use looks::ModelLook;
pub use outlook::{Lift, Part, Sway, Trust};
use plans::Plans;
pub use section::{Cut, CutCoat};
pub use sitter::Sitters;
pub use sittings::Sittings;
pub use tones::Tones;
pub use value::Rise;
pub use waiting::{RestFor, StepTimes};
pub use worked::{Worked, WorkedScheme};

use crate::caution::{self, StepCautions};
use crate::film::{Conditions, Film};
use crate::guide::{Guide, Scheme};
use crate::mesh::Meshes;
use crate::plan;
use crate::plate::Plates;
use crate::quantity::{self, ModelSurface, StepNeed};
use crate::report::{Finding, Registry};
use crate::rules::{self, Surroundings};
use kept::KeptScheme;
use sitter::Sitting;

/// Works out every scheme of a guide, in parallel.
pub fn work(guide: Guide, meshes: &Meshes, registry: Registry) -> (Worked, Vec<Finding>) {
    work_again(guide, Sitters { meshes, plates: &Plates::default() }, registry, &mut KeptWork::default())
}

/// Works out a guide that may have been worked out before: only schemes are worked again that changed, or whose
/// conditions did.
pub fn work_again(
    guide: Guide,
    sitters: Sitters<'_>,
    registry: Registry,
    kept: &mut KeptWork,
) -> (Worked, Vec<Finding>) {
    let mut findings = caution::check(&guide);
    let safety: Vec<&str> = registry.safety().collect();
    findings.extend(caution::check_waivers(&guide, &safety));
    findings.extend(rules::check_guide(&guide));
    let conditions = kept.begin(&guide);
    let plans = Plans::of(&guide);
    let models = rounds::models(&guide, &conditions, &plans);
    let worked: Vec<Arc<KeptScheme>> = guide
        .schemes
        .par_iter()
        .map(|scheme| {
            let around = Surroundings::new(&guide, models.get(scheme.slug.as_str()).copied().unwrap_or(0), registry);
            let sitting = sitters.of(&scheme.slug);
            match kept.of(scheme, &around, sitting) {
                Some(known) => known,
                None => Arc::new(work_scheme(scheme, &conditions, &around, sitting)),
            }
        })
        .collect();
    let schemes = worked.iter().map(|known| Arc::clone(&known.worked)).collect();
    findings.extend(versions::findings(&worked));
    findings.extend(plan::check(&guide, &conditions));
    kept.keep(worked);
    (Worked { guide, conditions, schemes, registry, plans }, findings)
}

/// The cautions of each step, for what is in its mix and for what the program tells to clean with.
fn step_cautions(scheme: &Scheme, needs: &[Option<StepNeed>]) -> Vec<StepCautions> {
    let steps = scheme.steps.iter().enumerate();
    steps
        .map(|(at, step)| {
            let need = needs.get(at).and_then(Option::as_ref);
            let products: Vec<_> = need.into_iter().flat_map(beside).map(|(_, paint)| Arc::clone(paint)).collect();
            caution::of_step(scheme, step, &products)
        })
        .collect()
}

/// All that is worked out about a scheme, from what [`KeptScheme`] and what all schemes share remember and from nothing else.
fn work_scheme(
    scheme: &Arc<Scheme>,
    conditions: &Conditions,
    around: &Surroundings<'_>,
    sitting: Sitting<'_>,
) -> KeptScheme {
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let film = Film::walk(scheme, &order, conditions);
    let mut findings = if scheme.whole { rules::check_film(around, &film, conditions) } else { Vec::new() };
    findings.extend(versions::without_optional(scheme, conditions, around, &findings));
    let surface = ModelSurface::of(scheme, sitting.shape.map(|shape| shape.surface), &conditions.bench);
    let needs = quantity::scheme_needs(&around.stock, &film, surface.as_ref(), conditions);
    findings.extend(quantity::check(around.models, scheme, surface.as_ref(), &needs, &conditions.bench));
    let findings = findings.into_iter().map(|finding| scheme.with_use(finding)).collect();
    let times = waiting::times(&film);
    let step_cautions = step_cautions(scheme, &needs);
    let worked = WorkedScheme {
        scheme: Arc::clone(scheme),
        glance: Glance::of(scheme, &times, &needs),
        times,
        sittings: Sittings::of(&film, conditions),
        tones: tones::tones(&film, conditions),
        seen: seen::seen(&film),
        reached: (0..scheme.areas.len()).map(|area| film.reaching(area).collect()).collect(),
        values: value::values(&film, conditions),
        films: section::sections(scheme, &film, conditions),
        outlooks: outlook::outlooks(scheme, &film, conditions),
        beside_masks: outlook::beside_masks(scheme, &film),
        cautions: caution::of_scheme(&step_cautions),
        step_cautions,
        surface,
        looks: if sitting.has_areas() { looks::looks(&film, conditions) } else { Vec::new() },
        shape: sitting.shape.map(Arc::clone),
        plate: sitting.plate.map(Arc::clone),
        needs,
    };
    KeptScheme::new(worked, findings, conditions, around)
}
