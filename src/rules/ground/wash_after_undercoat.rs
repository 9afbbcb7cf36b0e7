//! A model that is washed only when it has been undercoated keeps its grease under the paint.

use crate::film::{Coat, Deed, Preparation};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "wash-after-undercoat",
        level: Level::Error,
        about: "a model is washed before it is undercoated",
        why: "release agent and the grease of fingers stay under the undercoat, which then lifts with the first tape",
        group: Group::Surface,
        safety: false,
    },
    example: "'Wash the resin' washes 'Shell' when the undercoat is already on",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(Deed::Prepare(Preparation { washes: true, .. })) = look.film.turn(look.position).map(|turn| turn.deed)
    else {
        return;
    };
    let before = look.before();
    let late: Vec<(usize, &Coat<'_>)> = look.on_zones(|area, zone| {
        let ground = before.ground(area, zone)?;
        let washed = before.preparations(area).any(|(at, done)| done.washes && at < ground.position);
        (!washed).then_some(ground)
    });
    let Some((_, ground)) = late.first() else { return };
    told.tell(&RULE, look.index, Some(ground.step), || {
        let areas = look.area_titles(late.iter().map(|(area, _)| *area));
        let message = format!("{} washes {areas} when the undercoat is already on", look.own_title());
        let mend = format!("wash before {}", look.title(ground.step));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, ground.step, "the undercoat")
    });
}
