//! **Work**: everything that is computed about a scheme, from the guide alone.
//!
//! A scheme is worked independently of the others: that is what runs in parallel.

mod glance;
mod tones;
mod waiting;

use std::sync::Arc;

use rayon::prelude::*;

pub use glance::Glance;
pub use tones::{Tones, tones};
pub use waiting::waiting;

use crate::caution::{self, SchemeCautions, StepCautions};
use crate::film::Conditions;
use crate::guide::{Guide, Scheme};
use crate::report::Finding;
use crate::rules;

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
    /// The cautions of each step, in the order of the steps.
    pub step_cautions: Vec<StepCautions>,
    /// The cautions of the whole scheme.
    pub cautions: SchemeCautions,
}

/// Works out every scheme of a guide, in parallel.
pub fn work(guide: Guide) -> (Worked, Vec<Finding>) {
    let mut findings = caution::check(&guide);
    findings.extend(rules::check_guide(&guide));
    let conditions = Conditions::of(&guide);
    let check = |scheme: &Arc<Scheme>| rules::check(&guide, scheme, &conditions);
    let (schemes, told): (Vec<WorkedScheme>, Vec<Vec<Finding>>) =
        guide.schemes.par_iter().map(|scheme| (work_scheme(scheme), check(scheme))).unzip();
    findings.extend(told.into_iter().flatten());
    (Worked { guide, schemes }, findings)
}

fn work_scheme(scheme: &Arc<Scheme>) -> WorkedScheme {
    WorkedScheme {
        scheme: Arc::clone(scheme),
        glance: Glance::of(scheme),
        tones: (0..scheme.areas.len()).map(|area| tones(scheme, area)).collect(),
        step_cautions: scheme.steps.iter().map(|step| caution::of_step(scheme, step)).collect(),
        cautions: caution::of_scheme(scheme),
    }
}
