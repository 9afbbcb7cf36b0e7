//! Scraping, sanding or washing on a painted model takes the paint along.

use crate::film::{Coat, Deed, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "worked-after-paint",
        level: Level::Warning,
        about: "a model is scraped, carved, sanded and washed before it is painted",
        why: "the blade and the grit go through the paint, and soap gets under its edges",
        group: Group::Surface,
        safety: false,
    },
    example: "'Scrape the joints' works on 'Shell' when it is already painted",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(Deed::Prepare(done)) = look.film.turn(look.position).map(|turn| turn.deed) else { return };
    let carves = look.step.technique == Technique::Blade || done.sands;
    if !(carves || done.washes) || done.fills {
        return;
    }
    let before = look.before();
    let paint = |coat: &&Coat<'_>| matches!(coat.what, What::Colour | What::Shade | What::Tint | What::Varnish);
    let late: Vec<(usize, &Coat<'_>)> = look
        .areas()
        .iter()
        // On an undercoat that was never washed, washing late is told by the rule for that.
        .filter(|area| carves || before.ground(**area, Zone::Faces).is_none() || was_washed(look, **area))
        .filter_map(|area| Some((*area, before.coats(*area, Zone::Faces).find(paint)?)))
        .collect();
    let Some((area, first)) = late.first() else { return };
    let lowest = before.coats(*area, Zone::Faces).next().unwrap_or(first);
    told.tell(&RULE, look.index, None, || {
        let areas = look.area_titles(late.iter().map(|(area, _)| *area));
        let message = format!("{} works on {areas} when it is already painted", look.own_title());
        let mend = format!("put it before {}", look.title(lowest.step));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, first.step, "the paint")
    });
}

fn was_washed(look: &Look<'_>, area: usize) -> bool {
    let before = look.before();
    let ground = before.ground(area, Zone::Faces).map(|ground| ground.position);
    before.preparations(area).any(|(at, done)| done.washes && Some(at) < ground)
}
