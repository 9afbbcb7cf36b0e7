//! Glue on paint holds no better than the paint.

use super::named::assembled_with;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Technique, ToolWord, Zone, names_clear_part};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "glue-on-paint",
        level: Level::Note,
        about: "where painted parts are glued together, the faces that meet are bared first",
        why: "glue holds on paint only as well as the paint holds, and cement does not weld through it at all",
        group: Group::Order,
        safety: false,
    },
    example: "'Shield to the arm' glues painted parts: 'Shield'",
    ordering: false,
    look,
};

/// Glues.
const GLUES: &[ToolWord] = &[ToolWord::Cement, ToolWord::InstantGlue, ToolWord::WhiteGlue];

/// What paint is scraped off with.
const SCRAPERS: &[ToolWord] = &[ToolWord::Knife, ToolWord::Sanding];

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(words) = assembled_with(look) else { return };
    let has = |wanted: &[ToolWord]| words.iter().any(|word| wanted.contains(word));
    let glues = has(GLUES) || !look.step.mix.parts.is_empty();
    // A thread is held by a dot of glue, and nobody bares a finished wing for it.
    if !glues
        || has(&[ToolWord::Thread])
        || look.step.reach == Reach::Spots
        || has(SCRAPERS)
        || look.step.technique == Technique::Blade
    {
        return;
    }
    // White glue is what holds a clear part on paint, and is meant to.
    let is_clear = |area: &usize| look.scheme.areas.get(*area).is_some_and(|area| names_clear_part(&area.title));
    if look.areas().iter().any(is_clear) && !has(&[ToolWord::Cement]) {
        return;
    }
    let before = look.before();
    let paint = |coat: &&Coat<'_>| !matches!(coat.what, What::Filler | What::Texture);
    let painted: Vec<(usize, &Coat<'_>)> = look
        .areas()
        .iter()
        .filter(|area| before.shut_in(**area).is_none())
        .filter_map(|area| Some((*area, before.coats(*area, Zone::Faces).find(paint)?)))
        .collect();
    let Some((_, first)) = painted.first() else { return };
    told.tell(&RULE, look.index, Some(first.step), || {
        let areas = look.area_titles(painted.iter().map(|(area, _)| *area));
        let message = format!("{} glues painted parts: {areas}", look.own_title());
        let mend = "scrape the faces that meet down to the bare material, and name the knife under 'tools'; or glue before painting";
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, first.step, "the first paint there")
    });
}
