//! Shading, light, details, decals and chips are lost under a colour that is laid over all of the area afterwards.

use crate::bench::Figure;
use crate::film::{Coat, Deed, Film, Opacity, What};
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::tones::colours_buried::buries_colours;
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage, Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "detail-hidden",
        level: Level::Error,
        about: "nothing that covers is laid over an area once it has been shaded, highlighted, glazed, detailed, lettered or chipped",
        why: "the finer work under it is gone and has to be done again",
        group: Group::Order,
        safety: false,
    },
    example: "'Red cloth' covers 'Light edges' on 'Cloth'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.is_all_over() && coat.what == What::Colour) else { return };
    let gone = 1.0 - look.conditions.bench.get(Figure::CoveringFrom);
    let hidden: Vec<(usize, usize)> =
        of_paint(look, coat).flat_map(|area| fine_work(look, area, gone).map(move |at| (area, at))).collect();
    let mut steps: Vec<usize> = hidden.iter().filter_map(|(_, at)| Some(look.film.turn(*at)?.step)).collect();
    steps.sort_unstable();
    steps.dedup();
    let Some(first) = steps.first() else { return veiled(look, coat, told) };
    if coat.technique == Technique::Brush && hidden.iter().all(|(area, at)| is_inside_out(look.film, *area, *at)) {
        told.tell_with_own_mend(&RULE, coat.step, Some(*first), || {
            let title = look.title(*first);
            let message = format!("{} comes round {title}, which is painted already", look.own_title());
            let mend = format!("paint round {title}, or put {title} after this step");
            let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend).at(Level::Note);
            look.see(finding, *first, "what is painted already")
        });
        return;
    }
    told.tell_often(&RULE, hidden.len(), coat.step, Some(*first), || {
        let areas = look.area_titles(look.areas().iter().copied().filter(|area| hidden.iter().any(|(a, _)| a == area)));
        let titles = wording::listed(steps.iter().map(|step| &look.step_at(*step).title));
        let message = format!("{} covers {titles} on {areas}", look.own_title());
        let mend = format!("put it before {}, or keep it off what is finished", look.title(*first));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        steps.iter().fold(finding, |finding, step| look.see(finding, *step, "what it covers"))
    });
}

/// Small details, or light and chips under a main colour, that a colour veils: too thin to hide them, and too much to leave them as they were painted.
fn veiled(look: &Look<'_>, coat: &Coat<'_>, told: &mut Told) {
    let film = look.film;
    let is_tint = !matches!(look.step.stage, Stage::Basecoat | Stage::Layer);
    let share = look.conditions.bench.get(Figure::VeiledFrom);
    let is_basecoat = look.step.stage == Stage::Basecoat;
    let is_small = |at: usize| {
        film.step(at).is_some_and(|step| match step.stage {
            Stage::Detail => step.reach == Reach::Spots,
            // Two thin coats of the main colour leave little of edges and chips; drybrushed light may be its ground.
            Stage::Highlight | Stage::Chip => is_basecoat && step.technique != Technique::Drybrush,
            _ => false,
        })
    };
    // What hides it at last is told there.
    let stays = |area: usize, at: usize| {
        left(film.finished().coats(area, Zone::Faces), at) > 1.0 - look.conditions.bench.get(Figure::CoveringFrom)
    };
    let found = of_paint(look, coat).find_map(|area| {
        let at = fine_work(look, area, 1.0 - share).find(|at| is_small(*at) && stays(area, *at))?;
        Some((area, film.turn(at)?.step))
    });
    let Some((area, detail)) = found.filter(|_| !is_tint && !coat.is_tinted_clear()) else { return };
    told.tell(&RULE, coat.step, Some(detail), || {
        let title = look.title(detail);
        let message = format!("{} veils {title} on {}", look.own_title(), look.area_titles([area]));
        let mend = format!("put it before {title}, or keep it off what is finished");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend).at(Level::Warning);
        look.see(finding, detail, "what it veils")
    });
}

/// Whether fine work was done on spots of the undercoat: eyes are often painted before the face round them.
fn is_inside_out(film: &Film<'_>, area: usize, position: usize) -> bool {
    let on_spots = film.step(position).is_some_and(|step| step.stage == Stage::Detail && step.reach == Reach::Spots);
    on_spots && film.before(position).coats(area, Zone::Faces).all(|coat| coat.what == What::Ground)
}

/// Whether a coat hides whatever lies on its areas.
fn buries(coat: &Coat<'_>) -> bool {
    coat.is_all_over() && coat.opacity >= Opacity::Covering && coat.what == What::Colour
}

/// The areas on which a coat is paint, and no dirt that hides everything there: that is told by a rule of its own.
fn of_paint<'a>(look: &'a Look<'_>, coat: &'a Coat<'_>) -> impl Iterator<Item = usize> + use<'a> {
    look.areas().iter().copied().filter(move |area| !buries_colours(look, coat, *area))
}

/// The places in the order of the fine work on an area that nothing has buried yet, and that no chipping will free, and of
/// which this coat leaves no more than a share.
fn fine_work(look: &Look<'_>, area: usize, gone: f64) -> impl Iterator<Item = usize> {
    let film = look.film;
    let before = look.before();
    // A mask lies on a part of the area only, and what is finished lies beneath it.
    let masked = before.mask(area).is_some();
    let stays = before
        .coats(area, Zone::Faces)
        .rfind(|coat| buries(coat) || coat.what == What::Resist)
        .map_or(0, |coat| coat.position);
    (stays..look.position).filter(move |position| {
        !masked
            && film.areas(*position).contains(&area)
            && is_fine(film, *position)
            && !chips_nothing(film, area, *position)
            // A chipping film is used up where it has let go.
            && film.coat(*position).is_none_or(|coat| coat.what != What::Resist)
            && is_missed(look, area, *position)
            && !stays_in_recesses(look, *position)
            && hidden_since(look, area, *position, gone)
    })
}

/// Whether this coat takes what was left to see of the work at a place of the order, so that no more than this share is,
/// together with those since then: thin coats that go over everything hide it as one thick one does.
fn hidden_since(look: &Look<'_>, area: usize, position: usize, gone: f64) -> bool {
    let left_before = left(look.before().coats(area, Zone::Faces), position);
    let left = left_before * (1.0 - look.coat().map_or(0.0, |coat| coat.cover));
    left <= gone && left_before > gone
}

/// The share that coats leave to see of the work at a place of the order.
fn left<'a>(coats: impl Iterator<Item = &'a Coat<'a>>, position: usize) -> f64 {
    let over = coats.filter(|over| over.position > position && over.is_all_over() && over.what == What::Colour);
    over.map(|over| 1.0 - over.cover).product()
}

/// Whether fine work is missed where it is covered. A wash over all of a model, and light that is dusted or sprayed over
/// several of its areas, is meant for some of them; where others are painted only afterwards it just happens to lie. So does
/// a wash that runs over onto what has no colour yet.
fn is_missed(look: &Look<'_>, area: usize, position: usize) -> bool {
    let film = look.film;
    let on_ground = || film.before(position).coats(area, Zone::Faces).all(|coat| is_ground(coat));
    let all_over = film.step(position).is_some_and(|step| match step.stage {
        Stage::Shade | Stage::PanelWash | Stage::Weather => step.all_over || on_ground(),
        Stage::Highlight => step.all_over || step.technique.is_gentle(),
        _ => false,
    });
    // Light is missed on an area where a thin coat veils it, too.
    let is_light = film.step(position).is_some_and(|step| step.stage == Stage::Highlight);
    let survives = |area: &usize| {
        let mut over = film.finished().coats(*area, Zone::Faces).filter(|coat| coat.position > position);
        let is_veiled = is_light && look.areas().contains(area);
        !is_veiled && !over.any(buries)
    };
    !all_over || !film.areas(position).iter().any(survives)
}

/// Whether shade stays where it lies: a sponge and a stippling brush touch what stands out, and never the bottom of a recess.
fn stays_in_recesses(look: &Look<'_>, position: usize) -> bool {
    let dabs = matches!(look.step.technique, Technique::Sponge | Technique::Stipple);
    dabs && look.film.coat(position).is_some_and(|coat| coat.what == What::Shade)
}

/// Whether a coat comes before all colour: an undercoat, or light and dark sprayed on it.
fn is_ground(coat: &Coat<'_>) -> bool {
    coat.what == What::Ground || coat.stage == Stage::Preshade
}

/// Whether a step chips where nothing lies yet: that is told by a rule of its own.
fn chips_nothing(film: &Film<'_>, area: usize, position: usize) -> bool {
    film.turn(position).is_some_and(|turn| turn.deed == Deed::Chip)
        && film.before(position).coats(area, Zone::Faces).all(|coat| coat.what == What::Ground)
}

fn is_fine(film: &Film<'_>, position: usize) -> bool {
    let fine = |stage: Stage| {
        matches!(
            stage,
            Stage::Shade
                | Stage::Highlight
                | Stage::Glaze
                | Stage::Detail
                | Stage::Decal
                | Stage::Chip
                | Stage::PanelWash
                | Stage::Weather
        )
    };
    let coat = film.coat(position);
    let is_work = coat.is_some() || film.turn(position).is_some_and(|turn| turn.deed == Deed::Chip);
    let left_to_others = coat.is_some_and(|coat| coat.is_tinted_clear() || buries(coat));
    is_work && !left_to_others && film.step(position).is_some_and(|step| fine(step.stage))
}
