//! Powder finds nothing to hold on to on gloss: it lies in heaps and comes off with a breath.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Reach};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "pigment-on-gloss",
        level: Level::Warning,
        about: "powder goes on a matt surface",
        why: "on gloss it slides together and leaves bare places, and most of it is blown off before anything fixes it",
        group: Group::Washes,
        safety: false,
    },
    example: "'Dust' lays powder on 'Hull', which is glossy",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| is_laid_dry(coat)) else { return };
    let gloss = look.conditions.bench.get(Figure::GlossAbove);
    let before = look.before();
    let glossy: Vec<(usize, &Coat<'_>)> = look.on_zones(|area, zone| {
        let top = before.top(area, zone)?;
        // Metal shines by its flakes, and mud that is still there holds powder.
        let smooth = !top.metallic() && !matches!(top.what, What::Powder | What::Fixer | What::Texture);
        (smooth && top.gloss().0 > gloss).then_some(top)
    });
    let Some((_, top)) = glossy.first() else { return };
    told.tell_with_mend_first(&RULE, coat.step, Some(top.step), || {
        let areas = look.area_titles(glossy.iter().map(|(area, _)| *area));
        let message = format!("{} lays powder on {areas}, which is glossy", look.own_title());
        let mend = format!("lay a matt varnish on {areas} before the powder");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, top.step, "the gloss")
    });
}

/// Whether it is powder that is laid dry over more than spots; in thinner or fixer it clings to anything.
fn is_laid_dry(coat: &Coat<'_>) -> bool {
    coat.what == What::Powder
        && coat.reach != Reach::Spots
        && coat.cup.families.iter().all(|family| family == Family::Dry)
}
