//! Water that lets the upper colour go takes an unsealed under-colour with it.

use super::chipped::varnish_later;
use crate::film::{Deed, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Family;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "chipping-unsealed",
        level: Level::Error,
        about: "a water-based colour is sealed before a chipping film goes over it",
        why: "the wet brush goes through the upper colour and straight on through the lower, down to the undercoat",
        group: Group::Chipping,
        safety: false,
    },
    example: "'Film' goes over 'Red' on 'Boards', which nothing seals",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(resist) = look.coat().filter(|coat| coat.what == What::Resist) else { return };
    let before = look.before();
    let chipped = |area: usize| {
        (look.position..look.film.turns().len()).find(|position| {
            look.film.turn(*position).is_some_and(|turn| turn.deed == Deed::Chip)
                && look.film.areas(*position).contains(&area)
        })
    };
    let open = look.on_zones(|area, zone| {
        let under = before.top_film(area, zone)?;
        let soft = matches!(under.what, What::Colour | What::Shade | What::Tint) && !under.is_clear_film();
        (soft && under.cup.family() == Family::Water && chipped(area).is_some()).then_some(under)
    });
    let Some((_, under)) = open.first() else { return };
    told.tell_often(&RULE, open.len(), resist.step, Some(under.step), || {
        let areas = look.area_titles(open.iter().map(|(area, _)| *area));
        let message =
            format!("{} goes over {} on {areas}, which nothing seals", look.own_title(), look.title(under.step));
        let open: Vec<usize> = open.iter().map(|(area, _)| *area).collect();
        // What closes everything in the end stays there.
        let chip = open.iter().filter_map(|area| chipped(*area)).min().unwrap_or_default();
        let mend = match varnish_later(look, &open, chip) {
            Some(varnish) => format!("put {} before this", look.title(varnish)),
            None => format!("add a satin or gloss varnish on {areas} before this"),
        };
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, under.step, "the open colour")
    });
}
