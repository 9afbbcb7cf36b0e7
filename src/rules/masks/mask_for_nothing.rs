//! A mask that comes off before anything was done beside it kept nothing clean.

use crate::film::Deed;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "mask-for-nothing",
        level: Level::Warning,
        about: "between putting a mask on and taking it off something is painted",
        why: "an hour of tape is for nothing, and what it was meant for is sprayed without it",
        group: Group::Masks,
        safety: false,
    },
    example: "the mask of 'Tape' on 'Cloth' comes off before anything is painted",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let film = look.film;
    if film.turn(look.position).is_none_or(|turn| turn.deed != Deed::Mask) {
        return;
    }
    let off = |area: usize| {
        let bares = |at: &usize| film.turn(*at).is_some_and(|turn| turn.deed == Deed::Unmask);
        (look.position + 1..film.turns().len()).filter(bares).find(|at| film.areas(*at).contains(&area))
    };
    let worked = |until: usize| {
        let works = |deed: Deed| matches!(deed, Deed::Coat | Deed::Chip | Deed::Prepare(_));
        (look.position + 1..until).any(|at| film.turn(at).is_some_and(|turn| works(turn.deed)))
    };
    let idle: Vec<(usize, usize)> = look
        .areas()
        .iter()
        .filter_map(|area| Some((*area, off(*area)?)))
        .filter(|(_, until)| !worked(*until))
        .collect();
    let Some(bare) = idle.first().and_then(|(_, at)| film.turn(*at)) else { return };
    told.tell_often(&RULE, idle.len(), look.index, Some(bare.step), || {
        let areas = look.area_titles(idle.iter().map(|(area, _)| *area));
        let message = format!("the mask of {} on {areas} comes off before anything is painted", look.own_title());
        let mend = format!("put {} after what the mask is for, or leave both out", look.title(bare.step));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, bare.step, "where it comes off")
    });
}
