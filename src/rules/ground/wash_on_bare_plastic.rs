//! A wash of enamel or oil creeps into bare plastic, which cracks where it is under strain.

use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Material, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "wash-on-bare-plastic",
        level: Level::Warning,
        about: "enamel and oil washes run over paint or a seal and not over bare plastic",
        why: "the thinner creeps into joints and pins under strain, and the plastic cracks there days later",
        group: Group::Surface,
        safety: false,
    },
    example: "'Oily lines' runs over the bare plastic of 'Hull'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| creeps(coat)) else { return };
    let materials = look.materials();
    // A house of PVC is of sheet; of what else may bend the rule on vinyl tells.
    let sheet = materials.has(Material::Pvc) && look.scheme.model.is_ground();
    if !sheet && !materials.has(Material::Plastic) && !materials.has(Material::Polystyrene) {
        return;
    }
    let before = look.before();
    let is_bare = |area, zone: Zone| before.coats(area, zone).all(|under| under.what == What::Filler);
    let bare = look.on_zones(|area, zone| is_bare(area, zone).then_some(()));
    if bare.is_empty() {
        return;
    }
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(bare.iter().map(|(area, ())| *area));
        let message = format!("{} runs over the bare plastic of {areas}", look.own_title());
        let mend = format!("prime or varnish {areas} before this, or use a water-based wash");
        Finding::new(&RULE.check, look.step.places.paints, message, mend)
    });
}

/// Whether a coat is a thin wash in white spirit.
fn creeps(coat: &Coat<'_>) -> bool {
    coat.what == What::Shade && matches!(coat.cup.family(), Family::Enamel | Family::Oil)
}
