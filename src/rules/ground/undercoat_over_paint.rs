//! An undercoat is the first coat on an area; over paint it buries what is done and has nothing to bond to.
//! Paint on bare material that gets its undercoat later is told here.

use super::solvent_on_foam::is_foam;
use crate::film::{Coat, Deed, Preparation, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "undercoat-over-paint",
        level: Level::Error,
        about: "an undercoat goes on an area before any paint",
        why: "it buries the work that is done, and its solvent or its weight lifts paint that was not made to carry it",
        group: Group::Surface,
        safety: false,
    },
    example: "'Black' comes over paint on 'Shell'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let all_over = |coat: &&Coat<'_>| coat.stage == Stage::Undercoat && coat.is_all_over();
    let Some(coat) = look.coat().filter(all_over) else { return };
    let before = look.before();
    let is_paint = |coat: &&Coat<'_>| !matches!(coat.what, What::Ground | What::Filler | What::Texture);
    let lies_under = |area: usize| {
        let in_zones = Zone::ALL.iter().flat_map(move |zone| before.coats(area, *zone));
        let started_again = started_again(look, area);
        let counts = move |coat: &&Coat<'_>| is_paint(coat) && started_again.is_none_or(|at| coat.position > at);
        in_zones.chain(before.spots(area)).chain(before.decals(area)).filter(counts)
    };
    let buried: Vec<(usize, &Coat<'_>)> =
        look.areas().iter().flat_map(|area| lies_under(*area).map(move |paint| (*area, paint))).collect();
    let Some((_, paint)) = buried.iter().min_by_key(|(_, paint)| paint.position) else { return };
    told.tell_often(&RULE, buried.len(), coat.step, Some(paint.step), || {
        let areas =
            look.area_titles(look.areas().iter().copied().filter(|area| buried.iter().any(|(at, _)| at == area)));
        let message = format!("{} comes over paint on {areas}", look.own_title());
        let mend = if is_foam(look) && coat.cup.family().is_solvent() {
            format!(
                "call {} an undercoat and give it two full coats: this would eat the bare foam",
                look.title(paint.step)
            )
        } else {
            format!("put it before {}, or keep it off what is painted", look.title(paint.step))
        };
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, paint.step, "the paint that is there first")
    });
}

/// Where an area was filled last, if it is painted again afterwards: parts that were put together get their seams
/// filled, and begin anew from the undercoat.
fn started_again(look: &Look<'_>, area: usize) -> Option<usize> {
    let fills = |position: &usize| {
        let deed = look.film.turn(*position).map(|turn| turn.deed);
        matches!(deed, Some(Deed::Prepare(Preparation { fills: true, .. })))
            && look.film.areas(*position).contains(&area)
    };
    let painted = look.film.coats().iter().any(|coat| {
        coat.position > look.position
            && coat.what == What::Colour
            && coat.is_all_over()
            && look.film.areas(coat.position).contains(&area)
    });
    (0..look.position).rev().find(fills).filter(|_| painted)
}
