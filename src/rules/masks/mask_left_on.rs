//! A mask that no step takes off stays on the reader's model.

use crate::film::Deed;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "mask-left-on",
        level: Level::Error,
        about: "every mask is taken off again",
        why: "whoever paints from the page leaves it on, and after some days tape takes the paint with it",
        group: Group::Masks,
        safety: false,
    },
    example: "the mask of 'Tape' on 'Cloth' is never taken off",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    if look.film.turn(look.position).is_none_or(|turn| turn.deed != Deed::Mask) {
        return;
    }
    let finished = look.film.finished();
    let left: Vec<usize> =
        look.areas().iter().copied().filter(|area| finished.mask(*area) == Some(look.position)).collect();
    if left.is_empty() {
        return;
    }
    let bares = |position: &usize| look.film.turn(*position).is_some_and(|turn| turn.deed == Deed::Unmask);
    let earlier = (0..look.position).rev().find(bares).and_then(|position| look.film.turn(position));
    told.tell_often(&RULE, left.len(), look.index, earlier.map(|turn| turn.step), || {
        let areas = look.area_titles(left.iter().copied());
        let message = format!("the mask of {} on {areas} is never taken off", look.own_title());
        let mend = format!("add a step 'stage: unmask' for {areas} after what the mask is for");
        let finding = Finding::new(&RULE.check, look.step.places.areas, message, mend);
        match earlier {
            Some(turn) => look.see(finding, turn.step, "a mask is taken off here, before this one is put on"),
            None => match look.scheme.steps.last().filter(|last| last.stem != look.step.stem) {
                Some(last) => finding.see(last.places.title, "the last step, under which it still lies"),
                None => finding,
            },
        }
    });
}
