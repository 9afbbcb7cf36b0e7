//! A gap that is filled over the undercoat is a bare, smooth patch under the paint.

use crate::film::{Coat, Deed, Preparation, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "fill-after-undercoat",
        level: Level::Warning,
        about: "gaps are filled before the undercoat, or the filled spots are undercoated again",
        why: "filler and sanding leave bare patches on which the paint has nothing to grip, and which shine through it",
        group: Group::Surface,
        safety: false,
    },
    example: "'Close gaps' fills 'Shell' when the undercoat is already on",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(Deed::Prepare(Preparation { fills: true, .. })) = look.film.turn(look.position).map(|turn| turn.deed)
    else {
        return;
    };
    let (before, finished) = (look.before(), look.film.finished());
    let late: Vec<(usize, &Coat<'_>)> = look.on_zones(|area, zone| {
        let ground = before.ground(area, zone)?;
        let later = |coat: &Coat<'_>| coat.what == What::Ground && coat.position > look.position;
        let again = finished.coats(area, zone).any(later) || finished.spots(area).any(later);
        (!again).then_some(ground)
    });
    let Some((_, ground)) = late.first() else { return };
    told.tell(&RULE, look.index, Some(ground.step), || {
        let areas = look.area_titles(late.iter().map(|(area, _)| *area));
        let message = format!("{} fills {areas} when the undercoat is already on", look.own_title());
        let mend = format!("fill before {}, or undercoat the filled spots after this", look.title(ground.step));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, ground.step, "the undercoat")
    });
}
