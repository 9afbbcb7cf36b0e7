//! Tape lifts a decal that nothing holds down, however long it has dried.

use crate::film::{Coat, Deed, is_soft_mask};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "mask-on-decal",
        level: Level::Warning,
        about: "decals lie under a clear coat before tape goes on them",
        why: "the tape holds better than the decal does, and takes it along",
        group: Group::Masks,
        safety: false,
    },
    example: "'Tape' goes on the open decals of 'Marks' on 'Shell'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let tapes = look.film.turn(look.position).is_some_and(|turn| turn.deed == Deed::Mask) && !is_soft_mask(look.step);
    if !tapes {
        return;
    }
    let before = look.before();
    let open: Vec<(usize, &Coat<'_>)> =
        look.areas().iter().filter_map(|area| Some((*area, before.bare_decals(*area).next()?))).collect();
    let Some((_, decal)) = open.first() else { return };
    told.tell_with_mend_first(&RULE, look.index, Some(decal.step), || {
        let areas = look.area_titles(open.iter().map(|(area, _)| *area));
        let message = format!("{} goes on the open decals of {} on {areas}", look.own_title(), look.title(decal.step));
        let mend = format!("add a clear coat on {areas} before this");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, decal.step, "the decals")
    });
}
