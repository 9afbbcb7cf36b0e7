//! Instant glue fogs what shines beside it.

use super::named::assembled_with;
use crate::bench::Figure;
use crate::film::Coat;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{ToolWord, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "instant-glue-fogs",
        level: Level::Note,
        about: "parts with a gloss are not joined with instant glue",
        why: "its vapour settles beside the joint as a white bloom, which shows on clear and glossy parts",
        group: Group::Varnish,
        safety: false,
    },
    example: "'Canopy on' joins glossy parts with instant glue, which may fog them: 'Canopy'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    if !assembled_with(look).is_some_and(|words| words.contains(&ToolWord::InstantGlue)) {
        return;
    }
    let before = look.before();
    let bright = |coat: &&Coat<'_>| coat.gloss().0 > look.conditions.bench.get(Figure::GlossAbove);
    let glossy = |area: usize| before.top(area, Zone::Faces).filter(bright);
    let glossy: Vec<(usize, &Coat<'_>)> =
        look.areas().iter().filter_map(|area| Some((*area, glossy(*area)?))).collect();
    let Some((_, gloss)) = glossy.first() else { return };
    told.tell(&RULE, look.index, Some(gloss.step), || {
        let areas = look.area_titles(glossy.iter().map(|(area, _)| *area));
        let message = format!("{} joins glossy parts with instant glue, which may fog them: {areas}", look.own_title());
        let mend = "use a white glue for clear and glossy parts, or let air through until it has set";
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, gloss.step, "the gloss")
    });
}
