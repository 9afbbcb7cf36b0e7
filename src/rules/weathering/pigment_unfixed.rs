//! Powder that nothing holds comes off with the first touch. On the ground of a base it may: nobody holds a model
//! there; and a model that is in no army may be in a cabinet.

use super::pigment_under_brush::loose_powder;
use crate::film::What;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Zone;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "pigment-unfixed",
        level: Level::Note,
        about: "powder on the models of an army is held by fixer or a mist of varnish in the end",
        why: "loose powder rubs off on fingers, and leaves a clean print where the model was picked up",
        group: Group::Washes,
        safety: false,
    },
    example: "nothing holds the powder of 'Dust' on 'Hull'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(powder) = look.coat().filter(|coat| coat.what == What::Powder) else { return };
    let finished = look.film.finished();
    let end = look.film.turns().len();
    let is_ground =
        |area: usize| Zone::ALL.iter().any(|zone| finished.coats(area, *zone).any(|coat| coat.what == What::Texture));
    let is_loose = |area: usize| {
        let here = |zone: &Zone| loose_powder(look.film, finished, end, (area, *zone));
        Zone::ALL.iter().filter_map(here).any(|top| top.position == powder.position)
    };
    let loose: Vec<usize> = look.areas().iter().copied().filter(|area| is_loose(*area) && !is_ground(*area)).collect();
    if loose.is_empty() || look.around.models == 0 {
        return;
    }
    told.tell(&RULE, powder.step, None, || {
        let areas = look.area_titles(loose.iter().copied());
        let message = format!("nothing holds the powder of {} on {areas}", look.own_title());
        let mend = format!("let fixer creep into it, or mist matt varnish over {areas}, after this");
        Finding::new(&RULE.check, look.step.places.stage, message, mend)
    });
}
