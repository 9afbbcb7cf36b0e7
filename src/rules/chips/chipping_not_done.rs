//! A chipping film that nobody uses leaves the paint over it on a layer that dissolves.

use super::chipped::takes_away;
use crate::film::{Coat, Deed, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "chipping-not-done",
        level: Level::Warning,
        about: "where a chipping film is laid, the paint over it is chipped",
        why: "without chipping the film is work for nothing, and the paint over it comes off with the next wet wash",
        group: Group::Chipping,
        safety: false,
    },
    example: "nothing chips 'Boards' after 'Let go'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(film) = look.coat().filter(|coat| coat.what == What::Resist) else { return };
    let idle: Vec<usize> = look.areas().iter().copied().filter(|area| is_idle(look, film, *area)).collect();
    if idle.is_empty() || takes_away(look) {
        return;
    }
    told.tell(&RULE, film.step, None, || {
        let areas = look.area_titles(idle.iter().copied());
        let message = format!("nothing chips {areas} after {}", look.own_title());
        let mend =
            format!("add a step 'stage: chip' on {areas} within the hour after its colour, or leave the film out");
        Finding::new(&RULE.check, look.step.places.stage, message, mend)
    });
}

/// Whether paint is laid over the film on an area, and no step takes any off again.
fn is_idle(look: &Look<'_>, own: &Coat<'_>, area: usize) -> bool {
    let film = look.film;
    let painted = |other: &Coat<'_>| other.position > own.position && matches!(other.what, What::Colour | What::Tint);
    let works = |position: usize| {
        let by_hand = film.turn(position).is_some_and(|turn| matches!(turn.deed, Deed::Chip | Deed::Nothing));
        let chips = film.step(position).is_some_and(|step| step.stage == Stage::Chip);
        (by_hand || chips) && film.areas(position).contains(&area)
    };
    let covered = Zone::ALL.iter().any(|zone| film.finished().coats(area, *zone).any(painted));
    covered && !(own.position + 1..film.turns().len()).any(works)
}
