//! Water and a brush take nothing off dry paint that lies on no soluble film.

use super::chipped::{can_chip, takes_away};
use crate::film::What;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Technique};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "chipping-without-resist",
        level: Level::Warning,
        about: "paint that is taken off with water and a brush lies on a chipping film",
        why: "dry paint does not let go of paint: either nothing happens, or everything down to the undercoat comes off",
        group: Group::Chipping,
        safety: false,
    },
    example: "'Chip' takes paint off 'Boards', and no chipping film lies under it",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    if !takes_away(look) || !works_with_water(look) {
        return;
    }
    let held: Vec<usize> = look
        .areas()
        .iter()
        .copied()
        .filter(|area| !look.zones().iter().any(|zone| can_chip(look, *area, *zone)))
        .collect();
    let under = held.iter().find_map(|area| look.zones().iter().find_map(|zone| look.before().top(*area, *zone)));
    if held.is_empty() {
        return;
    }
    let later = look.film.coats().iter().find(|coat| {
        coat.what == What::Resist
            && coat.position > look.position
            && look.film.areas(coat.position).iter().any(|area| held.contains(area))
    });
    told.tell_often(&RULE, held.len(), look.index, later.map(|coat| coat.step), || {
        let areas = look.area_titles(held.iter().copied());
        let message = format!("{} takes paint off {areas}, and no chipping film lies under it", look.own_title());
        let film = under.map_or("and paint over it".to_owned(), |under| format!("under {}", look.title(under.step)));
        let mend = format!("lay a chipping film {film}, or list the paint that the chips are dabbed on with");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        match (later, under) {
            (Some(coat), _) => look.see(finding, coat.step, "the chipping film comes only here"),
            (None, Some(under)) => look.see(finding, under.step, "the paint that is to chip"),
            (None, None) => finding,
        }
    });
}

/// Whether a step has nothing but water and a brush or a cloth; salt under the paint is a film of its own kind.
fn works_with_water(look: &Look<'_>) -> bool {
    let by_brush = matches!(look.step.technique, Technique::Brush | Technique::Stipple | Technique::Cloth);
    let in_water = look.step.mix.parts.iter().all(|part| part.paint.family == Family::Water);
    let salted =
        look.scheme.steps.iter().flat_map(|step| &step.tools).any(|tool| tool.id.split('-').any(|word| word == "salt"));
    by_brush && in_water && !salted
}
