//! A spray dusts what is beside it: finished work that no mask covers gets a haze of the new colour.
//!
//! An area counts as finished when its fine work is done and no colour follows that would hide the haze. Areas that
//! still wait for their colour, and areas with nothing but a basecoat, may be dusted: that is the usual way to work.

use crate::bench::Figure;
use crate::film::{Coat, Deed, Opacity, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "overspray-on-finished",
        level: Level::Note,
        about: "what is finished lies under a mask while its neighbours are sprayed",
        why: "the mist settles beside the area too: a haze of colour on the details, or a dull bloom on metal and gloss",
        group: Group::Order,
        safety: false,
    },
    example: "'Green hull' sprays beside 'Cloak', where the work is done and no mask lies",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.technique.sprays() && is_broad(coat)) else { return };
    if is_loose(look) {
        return;
    }
    let spoiled = |area: usize| if dulls(look, coat) { shine(look, area) } else { fine_work(look, area) };
    let dusted: Vec<(usize, &Coat<'_>)> = if dulls(look, coat) || colours(coat) {
        look.film.dusted(look.position).filter_map(|area| spoiled(area).map(|work| (area, work))).collect()
    } else {
        Vec::new()
    };
    let Some((_, work)) = dusted.first() else { return };
    told.tell(&RULE, coat.step, Some(work.step), || {
        let areas = look.area_titles(dusted.iter().map(|(area, _)| *area));
        let message = format!("{} sprays beside {areas}, where the work is done and no mask lies", look.own_title());
        let mend = format!("mask {areas} before this and take the mask off afterwards, or use a brush here");
        let finding = Finding::new(&RULE.check, look.step.places.technique, message, mend);
        look.see(finding, work.step, "the work that is done")
    });
}

/// Whether all that is sprayed is put onto the model only later.
fn is_loose(look: &Look<'_>) -> bool {
    let film = look.film;
    let mut later = (look.position + 1..film.turns().len())
        .filter(|at| film.turn(*at).is_some_and(|turn| turn.deed == Deed::Assemble));
    let own = look.areas();
    !own.is_empty() && !look.step.all_over && later.any(|at| own.iter().all(|area| film.areas(at).contains(area)))
}

/// Whether a spray is a broad one; lines and spots are drawn from close by.
fn is_broad(coat: &Coat<'_>) -> bool {
    matches!(coat.reach, Reach::All | Reach::Raised | Reach::Faces)
}

/// Whether a spray leaves a colour where it was not meant to; dirt that strays is dirt.
fn colours(coat: &Coat<'_>) -> bool {
    coat.opacity > Opacity::Clear
        && matches!(coat.what, What::Ground | What::Colour | What::Tint)
        && !coat.stage.weathers()
}

/// Whether a spray leaves a matt bloom where it was not meant to.
fn dulls(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    coat.what == What::Varnish && coat.gloss().0 < look.conditions.bench.get(Figure::MattBelow)
}

/// The last fine work on an area, if it is done before this step and nothing coloured follows.
fn fine_work<'a>(look: &Look<'a>, area: usize) -> Option<&'a Coat<'a>> {
    let fine = |coat: &&Coat<'_>| {
        matches!(coat.stage, Stage::Layer | Stage::Highlight | Stage::Glaze | Stage::Detail | Stage::Decal)
    };
    let done = on_area(look, area).take_while(|coat| coat.position < look.position).filter(fine).last()?;
    if is_of_one_colour(look, done) {
        return None;
    }
    is_finished(look, area).then_some(done)
}

/// Whether the work has the colour of the spray: a glow strays on what glows.
fn is_of_one_colour(look: &Look<'_>, done: &Coat<'_>) -> bool {
    let coloured = |at: usize| {
        let parts = look.step_at(at).mix.parts.iter();
        parts.filter(|part| part.paint.kind.has_colour()).map(|part| part.paint.id.as_str()).collect::<Vec<_>>()
    };
    let (own, other) = (coloured(look.index), coloured(done.step));
    !own.is_empty() && own.iter().all(|paint| other.contains(paint))
}

/// What shines on an area, if it is meant to shine in the end.
fn shine<'a>(look: &Look<'a>, area: usize) -> Option<&'a Coat<'a>> {
    let bench = &look.conditions.bench;
    let before = look.before();
    let gloss = before
        .top(area, Zone::Faces)
        .filter(|top| top.is_clear_film() && top.gloss().0 > bench.get(Figure::GlossAbove));
    let shining = gloss.or_else(|| before.metal(area, Zone::Faces, bench))?;
    let again = on_area(look, area).any(|coat| coat.position > look.position && coat.is_clear_film());
    (!again && is_finished(look, area)).then_some(shining)
}

/// Whether no more colour comes on an area after this step.
fn is_finished(look: &Look<'_>, area: usize) -> bool {
    on_area(look, area).all(|coat| coat.position < look.position || coat.stage.weathers() || !colours(coat))
}

/// The coats of an area, spots and decals too, in the order in which they were laid.
fn on_area<'a>(look: &Look<'a>, area: usize) -> impl Iterator<Item = &'a Coat<'a>> + use<'a> {
    let film = look.film;
    film.coats().iter().filter(move |coat| film.areas(coat.position).contains(&area))
}
