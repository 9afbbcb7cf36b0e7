//! Glass that is bared before the last spray gets its mist: a canopy that was kept clear so long turns to frosted glass. So
//! does one that was never masked, if its name says that it is clear and nothing paints it as glass.

use crate::bench::Figure;
use crate::film::{Coat, Deed, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Zone, names_clear_part};

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
    let Some(coat) = look.coat() else { return };
    bared(look, coat, told);
    never_masked(look, coat, told);
}

/// Tells of glass that has lost its mask.
fn bared(look: &Look<'_>, coat: &Coat<'_>, told: &mut Told) {
    if !settles(look, coat) {
        return;
    }
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

/// Tells of the first coat on glass that no mask keeps clear and that nothing paints.
fn never_masked(look: &Look<'_>, coat: &Coat<'_>, told: &mut Told) {
    if !dulls(look, coat) || look.scheme.model.is_ground() {
        return;
    }
    let is_first = |area: usize| {
        let mut earlier = (0..look.position).filter_map(|at| look.film.coat(at));
        !earlier.any(|one| look.film.areas(one.position).contains(&area) && dulls(look, one))
    };
    let was_masked = |area: usize| {
        let deed = |at: usize| look.film.turn(at).is_some_and(|turn| turn.deed == Deed::Unmask);
        (0..look.position).any(|at| deed(at) && look.film.areas(at).contains(&area))
    };
    let open = |area: usize| look.before().mask(area).is_none() && look.before().shut_in(area).is_none();
    let dulled = look.areas().iter().copied().filter(|area| is_clear(look, *area));
    let dulled = dulled.filter(|area| open(*area) && !was_masked(*area) && is_first(*area) && !is_painted(look, *area));
    let dulled: Vec<usize> = dulled.collect();
    if dulled.is_empty() {
        return;
    }
    told.tell_with_own_mend(&RULE, coat.step, None, || {
        let areas = look.area_titles(dulled.iter().copied());
        let message = format!("{} goes over a clear part that nothing paints: {areas}", look.own_title());
        let mend = format!("mask {areas} before this, or leave it off until the last spray has dried");
        Finding::new(&RULE.check, look.step.places.areas, message, mend)
    });
}

/// Whether a coat takes the clearness of glass: a ground, a sprayed colour, or clear that does not shine.
fn dulls(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    let broad = matches!(coat.reach, Reach::All | Reach::Raised | Reach::Faces);
    broad && (coat.what == What::Ground || coat.what == What::Varnish || coat.technique.sprays()) && is_seen(look, coat)
}

/// Whether an area is painted glass: it gets a colour that is meant for it, by a brush or sprayed on some areas and not on all
/// of the model; or what this step lays there is made to shine, or gets a decal.
fn is_painted(look: &Look<'_>, area: usize) -> bool {
    let finished = look.film.finished();
    let mut coats = Zone::ALL.iter().flat_map(|zone| finished.coats(area, *zone)).chain(finished.spots(area));
    let is_colour = |coat: &Coat<'_>| matches!(coat.what, What::Colour | What::Tint | What::Shade);
    let everywhere = |coat: &Coat<'_>| look.step_at(coat.step).all_over && coat.technique.sprays();
    coats.any(|coat| is_colour(coat) && !everywhere(coat))
        || look.film.coats().iter().any(|coat| dresses(look, coat, area))
}

/// Whether a later coat is laid on glass alone by hand, as nobody lays it on what stays clear: gloss varnish, a decal.
fn dresses(look: &Look<'_>, coat: &Coat<'_>, area: usize) -> bool {
    let areas = look.film.areas(coat.position);
    let shines = coat.what == What::Varnish && !is_seen(look, coat);
    coat.position > look.position
        && (shines || coat.what == What::Decal)
        && !coat.technique.sprays()
        && areas.contains(&area)
        && areas.iter().all(|area| is_clear(look, *area))
}

/// Whether an area is named as a part that stays clear.
fn is_clear(look: &Look<'_>, area: usize) -> bool {
    look.scheme.areas.get(area).is_some_and(|area| names_clear_part(&area.title))
}

/// Whether a coat is a mist that is seen on glass. Gloss clear on glass makes it only clearer.
fn settles(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    let broad = matches!(coat.reach, Reach::All | Reach::Raised | Reach::Faces);
    coat.technique.sprays() && broad && is_seen(look, coat)
}

/// Whether a coat is seen on glass, as ground and colour are; gloss clear on glass makes it only clearer.
fn is_seen(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    match coat.what {
        What::Varnish => coat.gloss().0 < look.conditions.bench.get(Figure::GlossAbove),
        what => matches!(what, What::Ground | What::Colour | What::Tint),
    }
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
