//! **Work**: everything that is computed about a scheme, from the guide alone.
//!
//! A scheme is worked independently of the others: that is what runs in parallel.

mod glance;
mod section;
mod tones;
mod waiting;

use std::sync::Arc;

use rayon::prelude::*;

pub use glance::Glance;
pub use section::{Cut, StepFilm, Stripe};
pub use tones::Tones;
pub use waiting::waiting;

use crate::caution::{self, SchemeCautions, StepCautions};
use crate::film::{Coat, Conditions, Film};
use crate::guide::{Guide, Scheme};
use crate::report::Finding;
use crate::trade::Zone;

/// A guide and all that was worked out about it.
#[derive(Debug)]
pub struct Worked {
    /// The guide.
    pub guide: Guide,
    /// Its schemes, in the guide's order.
    pub schemes: Vec<WorkedScheme>,
}

/// A scheme and all that was worked out about it.
#[derive(Debug)]
pub struct WorkedScheme {
    /// The scheme.
    pub scheme: Arc<Scheme>,
    /// What it asks for, in figures.
    pub glance: Glance,
    /// The colours of each area in the end, in the order of the areas.
    pub tones: Vec<Tones>,
    /// The film after each step, in the order of the steps.
    pub films: Vec<StepFilm>,
    /// The cautions of each step, in the order of the steps.
    pub step_cautions: Vec<StepCautions>,
    /// The cautions of the whole scheme.
    pub cautions: SchemeCautions,
}

/// Works out every scheme of a guide, in parallel.
pub fn work(guide: Guide) -> (Worked, Vec<Finding>) {
    let findings = caution::check(&guide);
    let conditions = Conditions::of(&guide);
    let schemes = guide.schemes.par_iter().map(|scheme| work_scheme(scheme, &conditions)).collect();
    (Worked { guide, schemes }, findings)
}

fn work_scheme(scheme: &Arc<Scheme>, conditions: &Conditions) -> WorkedScheme {
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let film = Film::walk(scheme, &order, conditions);
    WorkedScheme {
        scheme: Arc::clone(scheme),
        glance: Glance::of(scheme),
        tones: tones(scheme, &film),
        films: section::sections(scheme, &film, conditions),
        step_cautions: scheme.steps.iter().map(|step| caution::of_step(scheme, step)).collect(),
        cautions: caution::of_scheme(scheme),
    }
}

/// The tones of each area when all steps are done.
fn tones(scheme: &Scheme, film: &Film<'_>) -> Vec<Tones> {
    let finished = film.finished();
    let seen = |area| finished.coats(area, Zone::Faces).rfind(|coat| !coat.is_clear_film());
    let metallic = |area| seen(area).is_some_and(Coat::metallic);
    let areas = 0..scheme.areas.len();
    areas.map(|area| Tones::of(&section::cut(finished, area, None), metallic(area))).collect()
}
