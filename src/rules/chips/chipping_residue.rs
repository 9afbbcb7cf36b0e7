//! What is left of a soluble film dissolves again in the next wet wash.

use super::chipped::resist;
use crate::film::{Coat, Deed, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Family;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "chipping-residue",
        level: Level::Warning,
        about: "chipped paint is sealed before a water-based wash or glaze goes over it",
        why: "the rest of the chipping film dissolves again: the colour creeps off around the chips, and the wash stains",
        group: Group::Chipping,
        safety: false,
    },
    example: "'Peat' wets 'Boards' after 'Chip', and nothing seals it",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| is_wet_wash(coat)) else { return };
    let before = look.before();
    let chips = |position: &usize| look.film.turn(*position).is_some_and(|turn| turn.deed == Deed::Chip);
    let open = look.on_zones(|area, zone| {
        let resist = resist(look, area, zone)?;
        let chip = before.chips(area).filter(chips).filter(|at| *at > resist.position).last()?;
        let sealed = before.coats(area, zone).any(|over| over.position > chip && over.is_clear_film());
        if sealed { None } else { look.film.turn(chip) }
    });
    let Some((_, chip)) = open.first() else { return };
    told.tell_with_own_mend(&RULE, look.index, Some(chip.step), || {
        let areas = look.area_titles(open.iter().map(|(area, _)| *area));
        let message =
            format!("{} wets {areas} after {}, and nothing seals it", look.own_title(), look.title(chip.step));
        let mend = format!("add a varnish on {areas} right after {}", look.title(chip.step));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        let finding = look.see(finding, chip.step, "the chipping");
        if coat.step == chip.step { finding } else { finding.see(look.step.places.paints, "what wets it") }
    });
}

fn is_wet_wash(coat: &Coat<'_>) -> bool {
    let wet = matches!(coat.what, What::Shade | What::Tint) || (coat.stage.weathers() && coat.what == What::Colour);
    wet && coat.cup.family() == Family::Water && !coat.technique.sprays()
}
