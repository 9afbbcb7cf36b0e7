//! Paint that is still wet does not chip, it smears.

use super::chipped::chipped;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "chipping-too-early",
        level: Level::Warning,
        about: "the colour over a chipping film is touch dry before it is chipped",
        why: "wet paint smears into the wear instead of breaking at its edge, and slides off in patches",
        group: Group::Chipping,
        safety: false,
    },
    example: "'Chip' chips 'Boards' 5 min after 'Green'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let now = look.before();
    let wet: Vec<_> = chipped(look)
        .into_iter()
        .filter_map(|(area, chipped)| Some((area, *chipped.over.last()?)))
        .filter(|(_, top)| now.age(top) < top.drying.touch)
        .collect();
    let Some((_, top)) = wet.first() else { return };
    told.tell(&RULE, top.step, Some(look.index), || {
        let areas = look.area_titles(wet.iter().map(|(area, _)| *area));
        let age = rested(now.age(top));
        let message = format!("{} chips {areas} {age} after {}", look.own_title(), look.title(top.step));
        let mend = format!("let it dry until it can be touched: 'dry: {}'", needed(top.drying.touch));
        let finding = Finding::new(&RULE.check, look.step_at(top.step).places.dry, message, mend);
        look.see(finding, look.index, "the chipping")
    });
}
