//! Scraping, sanding or washing on a painted model takes the paint along. A varnish that has hardened is sanded to level it.

use crate::bench::Figure;
use crate::film::{Coat, Deed, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::drying::young::young;
use crate::rules::judge::look::{needed, rested};
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
    let levels = done.sands && look.step.technique != Technique::Blade;
    if levels && tell_soft(look, told) {
        return;
    }
    let late: Vec<(usize, &Coat<'_>)> = look
        .areas()
        .iter()
        .filter(|area| !(levels && levelled(look, **area).is_some()))
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

/// The varnish on an area that sanding levels.
fn levelled<'a>(look: &Look<'a>, area: usize) -> Option<&'a Coat<'a>> {
    look.before().top_film(area, Zone::Faces).filter(|top| top.what == What::Varnish)
}

/// Tells of a varnish that is sanded while it is soft, where an author wrote how long it gets.
fn tell_soft(look: &Look<'_>, told: &mut Told) -> bool {
    let share = look.conditions.bench.get(Figure::SolventSafeShare);
    let soft = young(look, |under, need, age| {
        let soft = under.what == What::Varnish && look.is_short(age, need.time.times(share));
        soft.then_some(RULE.check.level)
    });
    let Some(soft) = soft else { return false };
    told.tell_with_own_mend(&RULE, soft.step, Some(look.index), || {
        let areas = look.area_titles(soft.areas.iter().copied());
        let age = rested(soft.age);
        let message = format!("{} sands {areas} {age} after {}", look.own_title(), look.title(soft.under.step));
        let mend = format!("wait until it is hard: 'dry: {}'", needed(soft.need.time));
        let finding = Finding::new(&RULE.check, look.step_at(soft.step).places.dry, message, mend);
        look.see(finding, look.index, "the grit")
    });
    true
}

fn was_washed(look: &Look<'_>, area: usize) -> bool {
    let before = look.before();
    let ground = before.ground(area, Zone::Faces).map(|ground| ground.position);
    before.preparations(area).any(|(at, done)| done.washes && Some(at) < ground)
}
