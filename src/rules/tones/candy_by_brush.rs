//! Tinted clear that a brush lays over much metal pools and shows every stroke.

use super::one_coat_on_broad::is_broad;
use crate::film::Coat;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "candy-by-brush",
        level: Level::Warning,
        about: "tinted clear over much metal is sprayed, in the same number of coats on every model",
        why: "under a brush it pools and dries in blotches, a second pass lifts the first, and nothing retouches it",
        group: Group::Metal,
        safety: false,
    },
    example: "'Amber' brushes tinted clear over the metal of 'Shell'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let by_brush =
        |coat: &&Coat<'_>| coat.is_tinted_clear() && coat.technique == Technique::Brush && coat.reach == Reach::All;
    let Some(coat) = look.coat().filter(by_brush) else { return };
    let before = look.before();
    let is_metal = |area: usize| before.seen(area, Zone::Faces).is_some_and(Coat::metallic);
    let broad: Vec<usize> =
        look.areas().iter().copied().filter(|area| is_broad(look, *area) && is_metal(*area)).collect();
    if broad.is_empty() {
        return;
    }
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(broad.iter().copied());
        let message = format!("{} brushes tinted clear over the metal of {areas}", look.own_title());
        let mend = "spray it in thin coats, or tint the metal by brush with a wash or an ink in a medium";
        Finding::new(&RULE.check, look.step.places.technique, message, mend)
    });
}
