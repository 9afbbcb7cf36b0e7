//! An undercoat is the first coat on an area; over paint it buries what is done and has nothing to bond to.
//! Paint that lies on bare material is left to the rule for that.

use super::no_undercoat::{absorbs, needs_grip};
use super::{Look, Rule, Told};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::trade::Stage;

pub(super) static RULE: Rule = Rule {
    check: Check {
        id: "undercoat-over-paint",
        level: Level::Error,
        about: "an undercoat goes on an area before any paint",
        why: "it buries the work that is done, and its solvent or its weight lifts paint that was not made to carry it",
        group: Group::Surface,
        safety: false,
    },
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let all_over = |coat: &&Coat<'_>| coat.stage == Stage::Undercoat && coat.is_all_over();
    let Some(coat) = look.coat().filter(all_over) else { return };
    let before = look.before();
    let is_paint = |coat: &&Coat<'_>| !matches!(coat.what, What::Ground | What::Filler | What::Texture);
    let buried = look.on_zones(|area, zone| {
        if before.coats(area, zone).next().is_some_and(|first| needs_grip(first) && !absorbs(look)) {
            return None;
        }
        before.coats(area, zone).chain(before.spots(area)).chain(before.decals(area)).find(is_paint)
    });
    let Some((_, paint)) = buried.iter().min_by_key(|(_, paint)| paint.position) else { return };
    told.tell(coat.step, Some(paint.step), || {
        let areas = look.area_titles(buried.iter().map(|(area, _)| *area));
        let message = format!("{} comes over paint on {areas}", look.own_title());
        let mend = format!("put it before {}, or keep it off what is painted", look.title(paint.step));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, paint.step, "the paint that is there first")
    });
}
