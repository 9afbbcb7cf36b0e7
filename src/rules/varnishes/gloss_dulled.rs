//! Lenses, wet eyes and puddles are glossed last: a matt coat over them takes the water out of them.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "gloss-dulled",
        level: Level::Warning,
        about: "glossed lenses, gems and wet places come after the last matt or satin coat",
        why: "under a matt coat glass turns to chalk and water dries up, and the gloss has to be painted again",
        group: Group::Varnish,
        safety: false,
    },
    example: "'Matt' dulls the gloss of 'Wet eye' on 'Feathers'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.what == What::Varnish && !is_glossy(look, coat)) else { return };
    if !matches!(coat.reach, Reach::All | Reach::Faces | Reach::Raised) {
        return;
    }
    let open = look.areas().iter().copied().filter(|area| look.before().mask(*area).is_none());
    let dulled: Vec<(usize, &Coat<'_>)> = open.filter_map(|area| Some((area, dulled(look, coat, area)?))).collect();
    let on_base = || water_beside(look).filter(|_| coat.technique.sprays() && look.step.all_over);
    let Some(gloss) = dulled.first().map(|(_, gloss)| *gloss).or_else(on_base) else {
        return candy_dulled(look, coat, told);
    };
    told.tell(&RULE, coat.step, Some(gloss.step), || {
        let areas = match dulled.as_slice() {
            [] => "the base".to_owned(),
            some => look.area_titles(some.iter().map(|(area, _)| *area)),
        };
        let message = format!("{} dulls the gloss of {} on {areas}", look.own_title(), look.title(gloss.step));
        let mend = format!("put it before {}, or mask what should stay glossy", look.title(gloss.step));
        let finding = Finding::new(&RULE.check, look.step.places.areas, message, mend);
        look.see(finding, gloss.step, "the gloss")
    });
}

/// Water that lies on the base beside the model: what is sprayed on all of the model meets it, and nothing glosses it again.
fn water_beside<'a>(look: &Look<'a>) -> Option<&'a Coat<'a>> {
    let is_water = |coat: &&Coat<'_>| shines(look, coat) && look.step_at(coat.step).is_about_base();
    let after = |coat: &&Coat<'_>| coat.position > look.position;
    let again = look.film.on_base().iter().filter(after).any(|coat| is_water(&coat));
    let top = look.film.top_of_base(look.position).filter(is_water)?;
    (!again).then_some(top)
}

/// Tells of a matt varnish over a clear colour that was built up to glow: another sheen mends it, and no other order.
fn candy_dulled(look: &Look<'_>, coat: &Coat<'_>, told: &mut Told) {
    if coat.gloss().0 >= look.conditions.bench.get(Figure::MattBelow) {
        return;
    }
    let open = look.areas().iter().copied().filter(|area| look.before().mask(*area).is_none());
    let dulled: Vec<(usize, &Coat<'_>)> = open.filter_map(|area| Some((area, candy(look, area)?))).collect();
    let Some((_, clear)) = dulled.first() else { return };
    told.tell_with_own_mend(&RULE, coat.step, Some(clear.step), || {
        let areas = look.area_titles(dulled.iter().map(|(area, _)| *area));
        let message = format!("{} takes the glow of {} on {areas}", look.own_title(), look.title(clear.step));
        let mend = format!("take a gloss or satin varnish on {areas}, or mask it under the matt");
        let finding = Finding::new(&RULE.check, look.step.places.areas, message, mend);
        look.see(finding, clear.step, "the clear colour")
    });
}

/// The gloss on an area that a duller varnish spoils, and that nothing brings back.
fn dulled<'a>(look: &Look<'a>, coat: &Coat<'_>, area: usize) -> Option<&'a Coat<'a>> {
    let finished = look.film.finished();
    if finished.decals(area).next().is_some() {
        return None;
    }
    let gloss = gloss_spot(look, area).or_else(|| gloss_part(look, coat, area))?;
    let again = finished
        .coats(area, Zone::Faces)
        .chain(finished.spots(area))
        .any(|later| later.position > coat.position && later.is_clear_film() && is_glossy(look, later));
    (!again).then_some(gloss)
}

/// A gloss on spots, unless it was the bed of a wash.
fn gloss_spot<'a>(look: &Look<'a>, area: usize) -> Option<&'a Coat<'a>> {
    let before = look.before();
    let spot = before.spots(area).rfind(|spot| spot.is_clear_film() && is_glossy(look, spot))?;
    let since = |coat: &&Coat<'_>| coat.position > spot.position;
    let served = Zone::ALL.iter().any(|zone| {
        before.coats(area, *zone).filter(since).any(|coat| coat.stage == Stage::PanelWash || coat.is_clear_film())
    });
    (!served).then_some(spot)
}

/// A gloss that was laid on this area and not on all that the duller coat covers, with nothing between the two.
fn gloss_part<'a>(look: &Look<'a>, coat: &Coat<'_>, area: usize) -> Option<&'a Coat<'a>> {
    let gloss = look.before().top(area, Zone::Faces).filter(|top| shines(look, top))?;
    let glossed = look.film.areas(gloss.position);
    let all_of_it = Zone::ALL.iter().all(|zone| look.before().top(area, *zone) == Some(gloss));
    let singled_out = look.areas().iter().any(|other| !glossed.contains(other)) && coat.reach == Reach::All;
    (all_of_it && singled_out).then_some(gloss)
}

/// A clear colour that was sprayed on in coats, and glows by its gloss. Over metal another rule tells.
fn candy<'a>(look: &Look<'a>, area: usize) -> Option<&'a Coat<'a>> {
    let before = look.before();
    let shown = before.coats(area, Zone::Faces).rfind(|coat| coat.what != What::Varnish)?;
    let built_up = shown.is_tinted_clear() && shown.is_all_over() && shown.technique.sprays() && shown.count > 1;
    let metal = before.metal(area, Zone::Faces, &look.conditions.bench).is_some();
    (built_up && is_glossy(look, shown) && !metal).then_some(shown)
}

/// Whether a coat is there to shine: a gloss varnish, or water, gel and the like that were poured or modelled.
fn shines(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    matches!(coat.what, What::Varnish | What::Texture | What::Fixer) && is_glossy(look, coat)
}

fn is_glossy(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    coat.gloss().0 > look.conditions.bench.get(Figure::GlossAbove)
}
