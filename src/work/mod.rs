//! **Work**: everything that is computed about a scheme, from the guide alone.
//!
//! A scheme is worked independently of the others: that is what runs in parallel.

mod brush_out;
mod glance;
mod kept;
mod ladder;
mod outlook;
mod plans;
mod section;
mod seen;
mod sittings;
mod tones;
mod value;
mod waiting;

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;

pub use brush_out::{BrushOut, BrushOuts, brush_outs};
pub use glance::Glance;
pub use kept::Kept;
pub use ladder::{Ladder, Rung};
pub use outlook::{Lift, Outlook, Sway, Trust};
use plans::Plans;
pub use section::{Cut, CutCoat, StepFilm};
pub use seen::Seen;
pub use sittings::Sittings;
pub use tones::Tones;
pub use value::Rise;
pub use waiting::{RestFor, StepTimes};

use crate::caution::{self, SchemeCautions, StepCautions};
use crate::film::{Conditions, Film};
use crate::guide::{self, Guide, Scheme, Unclear};
use crate::mesh::Meshes;
use crate::plan::{self, Plan};
use crate::quantity::{self, ModelSurface, StepNeed};
use crate::report::{Finding, Registry};
use crate::rules::{self, Surroundings};
use kept::KeptScheme;

/// A guide and all that was worked out about it.
#[derive(Debug)]
pub struct Worked {
    /// The guide.
    pub guide: Guide,
    /// What held for all of them: figures, air, paints.
    pub conditions: Conditions,
    /// Its schemes, in the guide's order.
    pub schemes: Vec<Arc<WorkedScheme>>,
    /// Every check that there is.
    pub registry: Registry,
    plans: Plans,
}

/// A scheme and all that was worked out about it.
#[derive(Debug)]
pub struct WorkedScheme {
    /// The scheme.
    pub scheme: Arc<Scheme>,
    /// What it asks for, in figures.
    pub glance: Glance,
    /// How long each step takes and rests, in the order of the steps.
    pub times: Vec<StepTimes>,
    /// The evenings that it asks for.
    pub sittings: Sittings,
    /// The predicted colours of each area in the end, in the order of the areas.
    pub tones: Vec<Tones>,
    /// The paints that one sees on each area in the end, in the order of the areas.
    pub seen: Vec<Seen>,
    /// How light and dark each area becomes, in the order of the areas.
    pub values: Vec<Vec<Rise>>,
    /// The film after each step, in the order of the steps.
    pub films: Vec<StepFilm>,
    /// What can be said of each step's colour, in the order of the steps.
    pub outlooks: Vec<Option<Outlook>>,
    /// The cautions of each step, in the order of the steps.
    pub step_cautions: Vec<StepCautions>,
    /// The cautions of the whole scheme.
    pub cautions: SchemeCautions,
    /// The surface of the model, as far as it is known.
    pub surface: Option<ModelSurface>,
    /// What each step needs, in the order of the steps.
    pub needs: Vec<Option<StepNeed>>,
}

/// Works out every scheme of a guide, in parallel.
pub fn work(guide: Guide, meshes: &Meshes, registry: Registry) -> (Worked, Vec<Finding>) {
    work_again(guide, meshes, registry, &mut Kept::default())
}

/// Works out a guide that may have been worked out before: only schemes are worked again that changed, or whose
/// conditions did.
pub fn work_again(guide: Guide, meshes: &Meshes, registry: Registry, kept: &mut Kept) -> (Worked, Vec<Finding>) {
    let mut findings = caution::check(&guide);
    let safety: Vec<&str> = registry.safety().collect();
    findings.extend(caution::check_waivers(&guide, &safety));
    findings.extend(rules::check_guide(&guide));
    let conditions = kept.begin(&guide);
    let models = models(&guide);
    let worked: Vec<Arc<KeptScheme>> = guide
        .schemes
        .par_iter()
        .map(|scheme| {
            let around = Surroundings::new(&guide, models.get(scheme.slug.as_str()).copied().unwrap_or(0), registry);
            let mesh_area = scheme.model.mesh.as_ref().and_then(|mesh| meshes.area(&mesh.path));
            match kept.of(scheme, &around, mesh_area) {
                Some(known) => known,
                None => Arc::new(work_scheme(scheme, &conditions, &around, mesh_area)),
            }
        })
        .collect();
    let schemes = worked.iter().map(|known| Arc::clone(&known.worked)).collect();
    findings.extend(worked.iter().flat_map(|known| &known.findings).cloned());
    findings.extend(plan::check(&guide, &conditions));
    kept.keep(worked);
    (Worked { plans: Plans::of(&guide), guide, conditions, schemes, registry }, findings)
}

impl Worked {
    /// The plan of the army of a slug; `None` where it names no evenings, or where a finding says why there is none.
    pub fn plan(&self, army: &str) -> Option<&Plan> {
        self.plans.get(&self.guide, &self.conditions, army)
    }

    /// The scheme that a typed name means.
    ///
    /// # Errors
    /// Where no scheme is called so, or several are.
    pub fn called(&self, name: &str) -> Result<&WorkedScheme, Unclear> {
        let known = self.schemes.iter().map(|known| [known.scheme.slug.as_str(), &known.scheme.title]);
        Ok(&self.schemes[guide::find(name, "a scheme", &known.collect::<Vec<_>>())?])
    }

    /// A scheme with all that was worked out about it; schemes stand in the order of their slugs.
    pub fn scheme(&self, slug: &str) -> Option<&WorkedScheme> {
        let at = self.schemes.binary_search_by(|worked| worked.scheme.slug.as_str().cmp(slug)).ok()?;
        self.schemes.get(at).map(AsRef::as_ref)
    }
}

/// The cautions of each step, for what is in its mix and for what the program tells to clean with.
fn step_cautions(scheme: &Scheme, needs: &[Option<StepNeed>]) -> Vec<StepCautions> {
    let steps = scheme.steps.iter().enumerate();
    let beside = |at: usize| needs.get(at).and_then(Option::as_ref).map_or(&[][..], |need| &need.extras);
    steps
        .map(|(at, step)| {
            let products: Vec<_> = beside(at).iter().filter_map(|extra| extra.product.clone()).collect();
            caution::of_step(scheme, step, &products)
        })
        .collect()
}

/// How many models of each scheme the armies hold, by its slug.
fn models(guide: &Guide) -> BTreeMap<&str, u32> {
    let mut models: BTreeMap<&str, u32> = BTreeMap::new();
    for unit in guide.armies.iter().flat_map(|army| &army.units) {
        let count = models.entry(&unit.scheme.slug).or_default();
        *count = count.saturating_add(unit.models);
    }
    models
}

/// All that is worked out about a scheme, from what [`KeptScheme`] and what all schemes share remember and from nothing else.
fn work_scheme(
    scheme: &Arc<Scheme>,
    conditions: &Conditions,
    around: &Surroundings<'_>,
    mesh_area: Option<f64>,
) -> KeptScheme {
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let film = Film::walk(scheme, &order, conditions);
    let mut findings = if scheme.whole { rules::check_film(around, &film, conditions) } else { Vec::new() };
    let surface = ModelSurface::of(scheme, mesh_area, &conditions.bench);
    let needs = quantity::scheme_needs(&around.stock, &film, surface.as_ref(), conditions);
    findings.extend(quantity::check(around.models, scheme, surface.as_ref(), &needs));
    let times = waiting::times(&film);
    let step_cautions = step_cautions(scheme, &needs);
    let worked = WorkedScheme {
        scheme: Arc::clone(scheme),
        glance: Glance::of(scheme, &times),
        times,
        sittings: Sittings::of(&film, conditions),
        tones: tones::tones(&film, conditions),
        seen: seen::seen(&film),
        values: value::values(&film, conditions),
        films: section::sections(scheme, &film, conditions),
        outlooks: outlook::outlooks(scheme, &film, conditions),
        cautions: caution::of_scheme(&step_cautions),
        step_cautions,
        surface,
        needs,
    };
    KeptScheme::new(worked, findings, conditions, around, mesh_area)
}
