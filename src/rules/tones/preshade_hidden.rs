//! Light and dark that was sprayed for a thin colour to show is gone under a colour that covers.

use crate::bench::Figure;
use crate::colour::space::lab_difference;
use crate::colour::{CLOSE, PLAINLY_SEEN};
use crate::film::{Coat, Opacity, Patch, View};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "preshade-hidden",
        level: Level::Warning,
        about: "the colour over a preshade is thin enough to let it through",
        why: "the work of the preshade is lost, and the area looks as flat as without it",
        group: Group::Order,
        safety: false,
    },
    example: "'Red' covers 'Light from above' on 'Cloth'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.opacity > Opacity::Clear && !follows(coat)) else { return };
    let limit = 1.0 - look.conditions.bench.get(Figure::OpaqueFrom);
    let hidden: Vec<(usize, &Coat<'_>)> = look
        .areas()
        .iter()
        // What a mask keeps of it shows on.
        .filter(|area| !look.film.is_beside_mask(look.position, **area))
        .filter_map(|area| {
            let preshade = preshade(look, *area).filter(|preshade| !is_picked_out(look, coat, preshade))?;
            let gone = |view: View<'_, '_>| shows(view, preshade, *area) <= limit;
            (gone(look.after()) && !gone(look.before())).then_some((*area, preshade))
        })
        .collect();
    let Some((area, preshade)) = hidden.first() else { return faded(look, coat, told) };
    if is_of_use_elsewhere(look, preshade, limit) {
        return;
    }
    let coat = hider(look, coat, preshade, *area);
    told.tell(&RULE, coat.step, Some(preshade.step), || {
        let areas = look.area_titles(hidden.iter().map(|(area, _)| *area));
        let message = format!("{} covers {} on {areas}", look.title(coat.step), look.title(preshade.step));
        let (mend, level) = if shades_itself(coat) {
            (STRONGER, Level::Note)
        } else {
            ("thin this colour or lay fewer coats, or leave the preshade out", RULE.check.level)
        };
        let finding = Finding::new(&RULE.check, look.step_at(coat.step).places.paints, message, mend).at(level);
        look.see(finding, preshade.step, "what it covers")
    });
}

/// What helps under a paint that is made to be flooded on neat: thinned, it would not shade itself any more.
const STRONGER: &str = "lay a stronger light below it, on a darker ground, or leave the preshade out";

/// Whether a coat is a one-coat paint, which takes its light from what lies beneath and its own flow.
fn shades_itself(coat: &Coat<'_>) -> bool {
    coat.cup.kind() == Some(Kind::OneCoat)
}

/// Light from one side that is hidden by less, and of which one hardly sees anything: both sides are predicted nearly alike.
fn faded(look: &Look<'_>, coat: &Coat<'_>, told: &mut Told) {
    let faded: Vec<(usize, &Coat<'_>)> = look
        .areas()
        .iter()
        .filter(|area| !look.film.is_beside_mask(look.position, **area))
        .filter_map(|area| {
            let preshade = preshade(look, *area).filter(|preshade| preshade.from.is_some())?;
            let is_picked_out = is_picked_out(look, coat, preshade);
            let faded = |after: bool| Some(stands_off(look, preshade, *area, after)? <= CLOSE);
            (!is_picked_out && faded(true)? && !faded(false)?).then_some((*area, preshade))
        })
        .collect();
    let Some((area, preshade)) = faded.first() else { return };
    let stands = |area: &usize| stands_off(look, preshade, *area, true).is_some_and(|off| off > CLOSE);
    if look.film.areas(preshade.position).iter().any(stands) {
        return;
    }
    told.tell(&RULE, coat.step, Some(preshade.step), || {
        let light = look.title(preshade.step);
        // A brush that paints one area of several solid is no fault: the light was too weak for the others.
        let all = look.film.areas(preshade.position);
        let is_last = all.iter().any(|area| !faded.iter().any(|(known, _)| known == area));
        let own = faded.iter().map(|(area, _)| *area);
        let areas = if is_last { look.area_titles(all.iter().copied()) } else { look.area_titles(own) };
        let message = if is_last {
            format!("with {} hardly anything of {light} is left to see on {areas}", look.own_title())
        } else {
            format!("{} leaves hardly anything of {light} to see on {areas}", look.own_title())
        };
        let off = stands_off(look, preshade, *area, true).unwrap_or_default();
        let (mend, level) = if is_last || shades_itself(coat) {
            (STRONGER, Level::Note)
        } else {
            let level = if off < PLAINLY_SEEN { Level::Warning } else { Level::Note };
            ("thin this colour, spray it or lay fewer coats, or leave the preshade out", level)
        };
        let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend).at(level);
        look.see(finding, preshade.step, "what it hides")
    });
}

/// How far the faces of an area that look to the side of a preshade are from the others, in CIEDE2000, before or after the
/// step; `None` where a colour is not known.
fn stands_off(look: &Look<'_>, preshade: &Coat<'_>, area: usize, after: bool) -> Option<f64> {
    let position = look.position + usize::from(after);
    let lab = |side| look.appearance().before_on(position, area, Zone::Faces, Patch { side, cell: 0 }).lab();
    Some(lab_difference(lab(preshade.from)?, lab(None)?))
}

/// Whether its light still shows on another area in the end: there it was worth its while, and sprayed in one go.
fn is_of_use_elsewhere(look: &Look<'_>, preshade: &Coat<'_>, limit: f64) -> bool {
    let finished = look.film.finished();
    look.film.areas(preshade.position).iter().any(|area| shows(finished, preshade, *area) > limit)
}

/// Whether an area is picked out from others, as eyes are: it has a colour of its own, and the light was not meant for it.
fn is_picked_out(look: &Look<'_>, coat: &Coat<'_>, preshade: &Coat<'_>) -> bool {
    let picked = look.film.areas(coat.position);
    coat.stage == Stage::Detail && look.film.areas(preshade.position).iter().any(|area| !picked.contains(area))
}

/// The coat that hides a preshade most, of all that lie over it: a streak is only the last straw.
fn hider<'a>(look: &Look<'a>, last: &'a Coat<'a>, preshade: &Coat<'_>, area: usize) -> &'a Coat<'a> {
    let over = look.after().coats(area, Zone::Faces).filter(|coat| coat.position > preshade.position);
    over.max_by(|one, other| one.cover.total_cmp(&other.cover)).unwrap_or(last)
}

/// Whether a coat follows a preshade instead of hiding it: thin layers and glazes on a part of the relief, laid by
/// its light until they take its place.
fn follows(coat: &Coat<'_>) -> bool {
    let is_by_light = matches!(coat.stage, Stage::Layer | Stage::Highlight | Stage::Glaze | Stage::Shade);
    is_by_light && !coat.is_all_over() && coat.opacity < Opacity::Opaque
}

fn preshade<'a>(look: &Look<'a>, area: usize) -> Option<&'a Coat<'a>> {
    let before = look.before();
    Zone::ALL.iter().find_map(|zone| before.coats(area, *zone).rfind(|coat| coat.stage == Stage::Preshade))
}

/// How much of a preshade still shows where it shows best.
fn shows(view: View<'_, '_>, preshade: &Coat<'_>, area: usize) -> f64 {
    let in_zone = |zone: &Zone| -> f64 {
        let over = view.coats(area, *zone).rev().take_while(|coat| coat.position > preshade.position);
        over.map(|coat| coat.leaves_of(preshade)).product()
    };
    preshade.reach.zones().iter().map(in_zone).fold(0.0, f64::max)
}
