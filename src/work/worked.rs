//! Everything that was worked out.

use std::sync::Arc;

use super::glance::Glance;
use super::looks::ModelLook;
use super::outlook::Outlook;
use super::plans::Plans;
use super::section::StepFilm;
use super::seen::Seen;
use super::sittings::Sittings;
use super::tones::Tones;
use super::value::Rise;
use super::waiting::StepTimes;
use crate::caution::{SchemeCautions, StepCautions};
use crate::film::Conditions;
use crate::guide::{self, Guide, Scheme, Unclear};
use crate::mesh::Shape;
use crate::plan::Plan;
use crate::plate::Plate;
use crate::quantity::{ModelSurface, StepNeed};
use crate::report::Registry;

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
    pub(super) plans: Plans,
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
    /// The steps that reach each area in the end, by their places and in the order of work: what a mask kept off an area,
    /// or what came once nothing reached it any more, is not among them.
    pub reached: Vec<Vec<usize>>,
    /// How light and dark each area becomes, in the order of the areas.
    pub values: Vec<Vec<Rise>>,
    /// The film after each step, in the order of the steps.
    pub films: Vec<StepFilm>,
    /// What can be said of each step's colour, in the order of the steps.
    pub outlooks: Vec<Option<Outlook>>,
    /// Whether each step works beside masks on parts of all that it reaches, in the order of the steps.
    pub beside_masks: Vec<bool>,
    /// The cautions of each step, in the order of the steps.
    pub step_cautions: Vec<StepCautions>,
    /// The cautions of the whole scheme.
    pub cautions: SchemeCautions,
    /// The surface of the model, as far as it is known.
    pub surface: Option<ModelSurface>,
    /// How its model looks after each step; empty where nothing tells its areas apart.
    pub looks: Vec<ModelLook>,
    /// The shape of its model, if it has a mesh.
    pub shape: Option<Arc<Shape>>,
    /// A photograph of it bare, on which it is drawn where it has no mesh.
    pub plate: Option<Arc<Plate>>,
    /// What each step needs, in the order of the steps.
    pub needs: Vec<Option<StepNeed>>,
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
        let known = self.schemes.iter().map(|known| known.scheme.names());
        Ok(&self.schemes[guide::find(name, "a scheme", &known.collect::<Vec<_>>())?])
    }

    /// A scheme with all that was worked out about it; schemes stand in the order of their slugs.
    pub fn scheme(&self, slug: &str) -> Option<&WorkedScheme> {
        let at = self.schemes.binary_search_by(|worked| worked.scheme.slug.as_str().cmp(slug)).ok()?;
        self.schemes.get(at).map(AsRef::as_ref)
    }
}
