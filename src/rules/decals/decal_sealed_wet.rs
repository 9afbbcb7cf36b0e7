//! Water under a decal that is sealed too soon can't get out.

use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::Kind;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "decal-sealed-wet",
        level: Level::Warning,
        about: "a decal is dry, softener too, before a varnish seals it",
        why: "water that is shut in lifts the film into blisters and turns it milky",
        group: Group::Decals,
        safety: false,
    },
    example: "'Seal' shuts in 'Marks' on 'Shell' after 1 h",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.what == What::Varnish) else { return };
    let before = look.before();
    // A wait that nobody wrote is filled in long enough, and held against nobody.
    let wet = |decal: &&Coat<'_>| {
        let step = look.step_at(decal.step);
        // What is rubbed on dry takes no water along.
        let wetted = step.mix.parts.iter().any(|part| part.paint.kind == Kind::DecalSoftener);
        wetted && step.dry.is_some() && look.is_short(look.age(decal), decal.drying.recoat)
    };
    let wet: Vec<(usize, &Coat<'_>)> =
        look.areas().iter().filter_map(|area| Some((*area, before.bare_decals(*area).find(wet)?))).collect();
    let Some((_, decal)) = wet.first() else { return };
    told.tell_with_own_mend(&RULE, decal.step, Some(coat.step), || {
        let areas = look.area_titles(wet.iter().map(|(area, _)| *area));
        let age = rested(look.age(decal));
        let message = format!("{} shuts in {} on {areas} after {age}", look.own_title(), look.title(decal.step));
        let mend = format!("let the decal dry: 'dry: {}'", needed(decal.drying.recoat));
        let finding = Finding::new(&RULE.check, look.step_at(decal.step).places.dry, message, mend);
        look.see(finding, coat.step, "what seals it")
    });
}
