//! Instant glue fogs what shines beside it.

use super::named::assembled_with;
use crate::bench::Figure;
use crate::film::Coat;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{ToolWord, Zone, names_clear_part};

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
    let glossy = |area: usize| before.top(area, Zone::Faces).filter(bright).map(|gloss| gloss.step);
    let is_clear = |area: usize| look.scheme.areas.get(area).is_some_and(|area| names_clear_part(&area.title));
    let fogged = |area: &usize| match (glossy(*area), is_clear(*area)) {
        (None, false) => None,
        (gloss, _) => Some((*area, gloss)),
    };
    // Vapour does not keep to the part that is glued: bare glass beside it fogs too.
    let bare_glass = |area: &usize| is_clear(*area) && !look.areas().contains(area) && before.mask(*area).is_none();
    let beside = (0..look.scheme.areas.len()).filter(bare_glass).map(|area| (area, None));
    let fogged: Vec<(usize, Option<usize>)> = look.areas().iter().filter_map(fogged).chain(beside).collect();
    let Some((first, gloss)) = fogged.first() else { return };
    told.tell(&RULE, look.index, *gloss, || {
        let areas = look.area_titles(fogged.iter().map(|(area, _)| *area));
        let sort = if gloss.is_some() { "glossy" } else { "clear" };
        let joins = if look.areas().contains(first) { "joins" } else { "works beside" };
        let message =
            format!("{} {joins} {sort} parts with instant glue, which may fog them: {areas}", look.own_title());
        let mend = "use a white glue for clear and glossy parts, or let air through until it has set";
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        match gloss {
            Some(gloss) => look.see(finding, *gloss, "the gloss"),
            None => finding,
        }
    });
}
