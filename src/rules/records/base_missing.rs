//! A step on the base of a model that has none: neither amounts nor waits of it can be worked out.

use super::area_unused::whole_schemes;
use crate::bench::Bench;
use crate::guide::{Area, Guide, Scheme};
use crate::measure::BaseSize;
use crate::report::{Check, Finding, Group, Level, wording};
use crate::trade::ModelKind;

/// What is done on a base has one to be done on.
pub(in crate::rules) static BASE_MISSING: Check = Check {
    id: "base-missing",
    level: Level::Note,
    about: "a basing step without areas is of a model that has a base",
    why: "how much it takes can't be worked out, and a reader looks for a base that is not there",
    group: Group::Bookkeeping,
    safety: false,
};

/// Where a base is worked on that nobody knows of.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    let bench = Bench::of(&guide.bench);
    whole_schemes(guide).filter_map(|scheme| asked(scheme, &bench)).collect()
}

fn asked(scheme: &Scheme, bench: &Bench) -> Option<Finding> {
    let model = &scheme.model;
    // What a figure stands on goes without saying, and ground is its own base.
    let stands_alone = model.kind.is_some_and(|kind| !kind.stands_on_base());
    let none = matches!(model.base, Some(BaseSize::None));
    if model.is_ground()
        || !(stands_alone || none)
        || bench.base(model).is_some()
        || scheme.areas.iter().any(Area::is_base)
    {
        return None;
    }
    let step = scheme.steps.iter().find(|step| step.is_about_base() && !step.mix.parts.is_empty())?;
    let title = wording::quoted(&step.title);
    let what = model.kind.map_or("model", ModelKind::name);
    let message = format!("{title} is about the base, and this {what} has none that is known");
    let mend = "name the areas that it goes on, such as 'areas: [all]'; or say under 'model' how large the base is: 'base: 60 mm'";
    Some(Finding::new(&BASE_MISSING, step.places.title, message, mend))
}
