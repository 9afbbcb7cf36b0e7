//! Water gets to the soluble film only through paint that is still young.

use super::chipped::{Chipped, chipped};
use super::chipping_under_hard_coat::is_hard;
use crate::bench::Figure;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::rested;
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "chipping-too-late",
        level: Level::Error,
        about: "the colour over a chipping film is chipped within hours of being laid",
        why: "once the film has closed water no longer gets through it: nothing lets go, and scrubbing takes all or none",
        group: Group::Chipping,
        safety: false,
    },
    example: "'Chip' chips 'Boards' only 24 h after 'Green'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let now = look.before();
    let window = look.conditions.bench.get(Figure::ChipWithin);
    let soft = |chipped: &Chipped<'_>| !chipped.over.iter().any(|coat| is_hard(coat));
    let late: Vec<_> = chipped(look)
        .into_iter()
        .filter(|(_, chipped)| soft(chipped))
        .filter_map(|(area, chipped)| Some((area, *chipped.over.first()?)))
        .filter(|(_, first)| now.age(first).0 > window)
        .collect();
    let Some((_, first)) = late.first() else { return };
    told.tell(&RULE, first.step, Some(look.index), || {
        let areas = look.area_titles(late.iter().map(|(area, _)| *area));
        let age = rested(now.age(first));
        let message = format!("{} chips {areas} only {age} after {}", look.own_title(), look.title(first.step));
        let mend = "chip in the same session: give this step a short 'dry', such as '30 min', and chip right after it";
        let finding = Finding::new(&RULE.check, look.step_at(first.step).places.dry, message, mend);
        look.see(finding, look.index, "the chipping")
    });
}
