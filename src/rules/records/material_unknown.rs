//! A material that is not known, or that may be foam as well as hard plastic: rules and cautions can't follow it.

use super::area_unused::whole_schemes;
use crate::guide::{Guide, Scheme};
use crate::report::{Check, Finding, Group, Level, wording};
use crate::trade::{Materials, ModelKind, Technique};

/// Materials are known.
pub(in crate::rules) static MATERIAL_UNKNOWN: Check = Check {
    id: "material-unknown",
    level: Level::Note,
    about: "the material of a model is one that is known: foam, plastic, resin, metal, wood …",
    why: "solvents eat foam, and dust, primers and cautions depend on the material; a word that is not known tells nothing",
    group: Group::Surface,
    safety: false,
};

/// What is asked about the materials of all schemes.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    whole_schemes(guide).filter_map(asked).collect()
}

fn asked(scheme: &Scheme) -> Option<Finding> {
    let Some(text) = scheme.model.material.as_deref().filter(|text| !text.trim().is_empty()) else {
        return is_built(scheme).then(|| unsaid(scheme));
    };
    let materials = Materials::of(text);
    let named = wording::quoted(text);
    let (message, mend) = if materials.may_be_foam(scheme.model.kind) && meets_solvent(scheme) {
        let message = format!("{named} may be foam or hard plastic, and solvents eat foam");
        (message, "write 'polystyrene foam' or 'hard plastic' under 'material', or the model's 'kind'")
    } else if materials.is_unknown() {
        let mend = "write the nearest of foam, plastic, soft plastic, resin, white metal, metal, wood, cork, plaster, clay and card";
        (format!("the material {named} is not known here"), mend)
    } else {
        return None;
    };
    Some(Finding::new(&MATERIAL_UNKNOWN, scheme.model.material_place, message, mend))
}

/// Whether it is something that painters build from foam, and solvent comes near it.
fn is_built(scheme: &Scheme) -> bool {
    matches!(scheme.model.kind, Some(ModelKind::Building | ModelKind::Terrain)) && meets_solvent(scheme)
}

fn unsaid(scheme: &Scheme) -> Finding {
    let message = "nothing says what the model is made of, and solvents eat foam";
    let mend = "say it under 'model', such as 'material: foam', 'material: plaster' or 'material: wood'";
    Finding::new(&MATERIAL_UNKNOWN, scheme.place, message, mend)
}

/// Whether anything that could eat foam comes near the model.
fn meets_solvent(scheme: &Scheme) -> bool {
    let solvent = |step: &crate::guide::Step| step.mix.parts.iter().any(|part| part.paint.family.is_solvent());
    scheme.steps.iter().any(|step| step.technique == Technique::SprayCan || solvent(step))
}
