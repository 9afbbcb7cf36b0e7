//! Glass that is bared before the last spray gets its mist: a canopy that was kept clear so long turns to frosted glass.

use crate::bench::Figure;
use crate::film::{Coat, Deed, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "clear-part-frosted",
        level: Level::Warning,
        about: "a part that stays clear keeps its mask until the last spray",
        why: "the mist settles on the bare glass, and no cloth takes it off again",
        group: Group::Masks,
        safety: false,
    },
    example: "'Matt' mists over a clear part that has lost its mask: 'Canopy'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| settles(look, coat)) else { return };
    let reached = look.areas().iter().copied().chain(look.film.dusted(look.position));
    let mut dulled: Vec<(usize, usize)> = reached.filter_map(|area| Some((area, bared_clear(look, area)?))).collect();
    dulled.sort_unstable();
    dulled.dedup();
    let Some((_, bared)) = dulled.first() else { return };
    told.tell(&RULE, coat.step, Some(*bared), || {
        let areas = look.area_titles(dulled.iter().map(|(area, _)| *area));
        let message = format!("{} mists over a clear part that has lost its mask: {areas}", look.own_title());
        let mend = format!("put {} after this, or mask {areas} again", look.title(*bared));
        let finding = Finding::new(&RULE.check, look.step.places.areas, message, mend);
        look.see(finding, *bared, "where the mask comes off")
    });
}

/// Whether a coat is a mist that is seen on glass. Gloss clear on glass makes it only clearer.
fn settles(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    let broad = matches!(coat.reach, Reach::All | Reach::Raised | Reach::Faces);
    let seen = match coat.what {
        What::Varnish => coat.gloss().0 < look.conditions.bench.get(Figure::GlossAbove),
        what => matches!(what, What::Ground | What::Colour | What::Tint),
    };
    coat.technique.sprays() && broad && seen
}

/// The step that bared an area which never gets a colour: it was masked to stay clear.
fn bared_clear(look: &Look<'_>, area: usize) -> Option<usize> {
    let finished = look.film.finished();
    let coloured = Zone::ALL
        .iter()
        .flat_map(|zone| finished.coats(area, *zone))
        .any(|coat| coat.position != look.position && !matches!(coat.what, What::Varnish));
    let deed = |position: usize| look.film.turn(position).filter(|_| look.film.areas(position).contains(&area));
    let bared = (0..look.position).rev().filter_map(deed).find(|turn| turn.deed == Deed::Unmask)?;
    (!coloured && look.before().mask(area).is_none()).then_some(bared.step)
}
