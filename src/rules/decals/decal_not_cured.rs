//! Softener and water bite into a gloss that has not set.

use crate::film::Reason;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::drying::young::young;
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "decal-not-cured",
        level: Level::Warning,
        about: "the gloss under a decal rests long enough before water and softener come on it",
        why: "softener wrinkles a young gloss, and the decal sinks into it or tears when it is moved",
        group: Group::Decals,
        safety: false,
    },
    example: "'Marks' goes on 'Shell' 1 h after 'Gloss'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let young = young(look, |_, need, age| {
        (need.reason == Reason::Decal && look.is_short(age, need.time)).then_some(RULE.check.level)
    });
    let Some(young) = young else { return };
    told.tell(&RULE, young.step, Some(look.index), || {
        let areas = look.area_titles(young.areas.iter().copied());
        let (age, rest) = (rested(young.age), needed(young.need.time));
        let message = format!("{} goes on {areas} {age} after {}", look.own_title(), look.title(young.under.step));
        let mend = format!("let it dry longer: 'dry: {rest}'");
        let finding = Finding::new(&RULE.check, look.step_at(young.step).places.dry, message, mend);
        look.see(finding, look.index, "the decal")
    });
}
