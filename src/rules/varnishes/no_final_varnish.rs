//! Models of an army go through many hands; paint without a varnish wears off at every edge.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::ground::solvent_on_foam::is_foam;
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Kind, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "no-final-varnish",
        level: Level::Note,
        about: "water-based and oil colours on the models of an army end under a varnish, and so do all areas of a finished scheme that varnishes any",
        why: "models that are moved about lose their colour at every edge that a finger meets",
        group: Group::Varnish,
        safety: false,
    },
    example: "no varnish protects the paint on 'Boots' after 'Green boots', and models of this scheme are in an army",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    if look.coat().is_none() || is_foam(look) {
        return;
    }
    let Some(why) = why(look) else { return };
    let open: Vec<(usize, &Coat<'_>)> =
        (0..look.scheme.areas.len()).filter_map(|area| Some((area, open_paint(look, area)?))).collect();
    let last = open.iter().map(|(_, coat)| coat.position).max();
    if last != Some(look.position) {
        return;
    }
    told.tell(&RULE, look.index, None, || {
        let areas = look.area_titles(open.iter().map(|(area, _)| *area));
        let message = format!("no varnish protects the paint on {areas} after {}, and {why}", look.own_title());
        let mend = match powder(look, &open) {
            Some(powder) => {
                format!("add a varnish on {areas} before {}: over powder it makes it sink", look.title(powder))
            }
            None => format!("add a varnish on {areas} as a last step"),
        };
        let finding = Finding::new(&RULE.check, look.step.places.title, message, mend);
        open.iter()
            .filter(|(_, coat)| coat.step != look.index)
            .fold(finding, |finding, (_, coat)| look.see(finding, coat.step, "open paint"))
    });
}

/// Why its paint should have a varnish, if it should: its models are handled; or its author says that nothing is missing,
/// and protects other areas.
fn why(look: &Look<'_>) -> Option<&'static str> {
    if look.around.models > 0 {
        return Some("models of this scheme are in an army");
    }
    let finished = look.film.finished();
    let sealed = |area| finished.coats(area, Zone::Faces).any(|coat| coat.stage == Stage::Varnish);
    (look.scheme.finished && (0..look.scheme.areas.len()).any(sealed)).then_some("other areas have one")
}

/// The first step that lays powder on one of the open areas.
fn powder(look: &Look<'_>, open: &[(usize, &Coat<'_>)]) -> Option<usize> {
    let lies = |coat: &&Coat<'_>| {
        let areas = look.film.areas(coat.position);
        coat.what == What::Powder && open.iter().any(|(area, _)| areas.contains(area))
    };
    look.film.coats().iter().find(lies).map(|coat| coat.step)
}

/// Whether so much varnish is in a mix that it protects itself.
fn holds_varnish(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    let parts = &look.step_at(coat.step).mix.parts;
    let sum = |is: &dyn Fn(Kind) -> bool| -> f64 {
        parts.iter().filter(|part| is(part.paint.kind)).map(|part| part.amount.as_f64()).sum()
    };
    sum(&|kind| kind == Kind::Varnish) >= sum(&|kind| kind != Kind::Varnish)
}

/// The main paint of an area, if it wears off, nothing shuts it in and no clear film lies over it in the end. Metal, gloss and whatever
/// carries grit are left alone.
fn open_paint<'a>(look: &Look<'a>, area: usize) -> Option<&'a Coat<'a>> {
    let finished = look.film.finished();
    // No finger gets at what is shut in.
    if finished.shut_in(area).is_some() || finished.coats(area, Zone::Faces).any(|coat| coat.what == What::Texture) {
        return None;
    }
    let top = finished
        .coats(area, Zone::Faces)
        .rfind(|coat| !(is_finish(coat) || coat.is_clear_film() && coat.from.is_some()))?;
    let wears = matches!(top.cup.family(), Family::Water | Family::Oil)
        && matches!(top.what, What::Colour | What::Shade | What::Tint)
        && !top.is_clear_film()
        && !holds_varnish(look, top)
        && !top.metallic()
        && top.gloss().0 < look.conditions.bench.get(Figure::GlossAbove);
    wears.then_some(top)
}

/// Whether a coat is a trifle on top, which says nothing about what protects the area.
pub(in crate::rules) fn is_finish(coat: &Coat<'_>) -> bool {
    let slow = matches!(coat.cup.family(), Family::Enamel | Family::Oil);
    matches!(coat.what, What::Powder | What::Fixer)
        || matches!(coat.stage, Stage::Highlight | Stage::Detail | Stage::Chip)
        || (coat.stage.weathers() && slow)
}
