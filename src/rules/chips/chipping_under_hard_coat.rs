//! Varnish, lacquer and enamel let no water through: what lies under them does not chip.

use super::chipped::chipped;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Family;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "chipping-under-hard-coat",
        level: Level::Error,
        about: "what is to chip is a water-based colour that no varnish covers",
        why: "water does not get through varnish or a solvent-based film, so the soluble film under it never lets go",
        group: Group::Chipping,
        safety: false,
    },
    example: "'Chip' can't get through 'Matt' on 'Boards'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let hard: Vec<_> = chipped(look)
        .into_iter()
        .filter_map(|(area, chipped)| Some((area, chipped.resist, *chipped.over.iter().find(|coat| is_hard(coat))?)))
        .collect();
    let Some((_, resist, coat)) = hard.first() else { return };
    let finding = || {
        let areas = look.area_titles(hard.iter().map(|(area, ..)| *area));
        let message = format!("{} can't get through {} on {areas}", look.own_title(), look.title(coat.step));
        let mend = if coat.what == What::Varnish {
            format!("chip before {}", look.title(coat.step))
        } else {
            format!("use a water-based colour for {}, and chip it within the hour", look.title(coat.step))
        };
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        let finding = look.see(finding, coat.step, "what lets no water through");
        look.see(finding, resist.step, "the film that is to let go")
    };
    // A colour that can't be chipped is mended by another product, and by no place in the order.
    if coat.what == What::Varnish {
        told.tell_often(&RULE, hard.len(), look.index, Some(coat.step), finding);
    } else {
        told.tell_with_own_mend(&RULE, look.index, Some(coat.step), finding);
    }
}

/// Whether water does not get through a coat.
pub(in crate::rules) fn is_hard(coat: &Coat<'_>) -> bool {
    coat.is_clear_film() || !matches!(coat.cup.family(), Family::Water | Family::Dry)
}
