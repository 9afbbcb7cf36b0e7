//! Softener and water bite into a gloss that has not set.

use crate::bench::Minutes;
use crate::film::What;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::Zone;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "decal-not-cured",
        level: Level::Warning,
        about: "the gloss beneath a decal rests long enough before water and softener come on it",
        why: "softener wrinkles a young gloss, and the decal sinks into it or tears when it is moved",
        group: Group::Decals,
        safety: false,
    },
    example: "'Marks' goes on 'Shell' 1 h after 'Gloss'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    if look.coat().is_none_or(|coat| coat.what != What::Decal) {
        return;
    }
    let before = look.before();
    let young = look.by_step(
        |area, _| {
            let gloss = before.top_film(area, Zone::Faces)?;
            let rest = Minutes(look.conditions.bench.decal_rest(gloss.cup.family())).min(gloss.drying.cured);
            (before.age(gloss) < rest).then_some((gloss, rest))
        },
        |(gloss, _)| gloss.step,
    );
    for ((gloss, rest), areas) in &young {
        told.tell(&RULE, gloss.step, Some(look.index), || {
            let areas = look.area_titles(areas.iter().copied());
            let (age, rest) = (rested(before.age(gloss)), needed(*rest));
            let message = format!("{} goes on {areas} {age} after {}", look.own_title(), look.title(gloss.step));
            let mend = format!("let it dry longer: 'dry: {rest}'");
            let finding = Finding::new(&RULE.check, look.step_at(gloss.step).places.dry, message, mend);
            look.see(finding, look.index, "the decal")
        });
    }
}
