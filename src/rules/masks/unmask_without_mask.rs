//! A step that takes off a mask which is not there: a step is missing, or an area is misnamed.

use crate::film::Deed;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "unmask-without-mask",
        level: Level::Warning,
        about: "a mask is taken off only where one was put on",
        why: "the reader looks for tape that no step put on, and the paint is already where it should not be",
        group: Group::Masks,
        safety: false,
    },
    example: "'Bare' takes a mask off 'Cloth', where none lies",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    if look.film.turn(look.position).is_none_or(|turn| turn.deed != Deed::Unmask) {
        return;
    }
    let before = look.before();
    let bare: Vec<usize> = look.areas().iter().copied().filter(|area| before.mask(*area).is_none()).collect();
    let all_bare = bare.len() == look.areas().len();
    if bare.is_empty() || (look.step.all_over && !all_bare) {
        return;
    }
    let masks = |position: &usize| {
        look.film.turn(*position).is_some_and(|turn| turn.deed == Deed::Mask)
            && look.film.areas(*position).iter().any(|area| bare.contains(area))
    };
    let later = (look.position..look.film.turns().len()).find(masks).and_then(|position| look.film.turn(position));
    told.tell_often(&RULE, bare.len(), look.index, later.map(|turn| turn.step), || {
        let areas = look.area_titles(bare.iter().copied());
        let message = format!("{} takes a mask off {areas}, where none lies", look.own_title());
        let mend = format!("add a step 'stage: mask' for {areas} before this, or take the area out of this step");
        let finding = Finding::new(&RULE.check, look.step.places.areas, message, mend);
        match later {
            Some(turn) => look.see(finding, turn.step, "the mask comes only here"),
            None => finding.see(look.step.places.stage, "the stage that takes a mask off"),
        }
    });
}
