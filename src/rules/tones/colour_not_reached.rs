//! A thin or transparent colour over a dark ground stays dark: the area never gets the colour that was meant.

use crate::bench::Figure;
use crate::colour::space::{Lab, lab, lab_difference, linear};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Hiding, Kind, Stage, Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "colour-not-reached",
        level: Level::Warning,
        about: "the main colour of an area has enough coats, and a ground light enough, to be seen as itself",
        why: "the dark under it swallows the colour: yellow over black is olive, and a fluorescent paint does not shine",
        group: Group::Order,
        safety: false,
    },
    example: "'Yellow' stays far darker on 'Hood' than its own colour: by prediction it is 48 away from it",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| is_main_colour(coat)) else { return };
    let Some(own) = own(look, coat) else { return };
    let limit = look.conditions.bench.get(Figure::ColourNotReachedFrom);
    let [lightest, part] =
        [Figure::DarkGroundBelow, Figure::DarkerPart].map(|figure| look.conditions.bench.get(figure));
    let short: Vec<(usize, f64, bool)> = look
        .areas()
        .iter()
        .filter(|area| is_last_colour(look, coat, **area) && !is_to_wear(look, **area))
        .filter(|area| coat.what != What::Tint || is_first_colour(look, **area))
        .filter_map(|area| {
            let before = look.showed(*area, Zone::Faces).lab()?;
            let after = look.shows(*area, Zone::Faces).lab()?;
            let apart = lab_difference(after, own);
            // What differs by its hue alone lies on a light ground of another colour.
            let dark = before.l < own.l && own.l - after.l >= part * apart;
            Some((*area, apart, before.l < lightest)).filter(|_| dark && apart >= limit)
        })
        .collect();
    let Some(most) = short.iter().map(|(_, apart, _)| *apart).reduce(f64::max) else { return };
    let on_dark = short.iter().any(|(.., on_dark)| *on_dark);
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(short.iter().map(|(area, ..)| *area));
        let how = if on_dark { "far darker" } else { "darker" };
        let message = format!(
            "{} stays {how} on {areas} than its own colour: by prediction it is {most:.0} away from it",
            look.own_title()
        );
        let mend =
            "lay a white or a light ground under it, or more coats; if the dark is wanted, waive this and say so";
        let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend);
        if on_dark { finding } else { finding.at(Level::Note) }
    });
}

/// The colour that was meant: where a paint covers, what it looks like then; of one that is seen through, its own on white, as
/// enough of it for that is nearly black.
fn own(look: &Look<'_>, coat: &Coat<'_>) -> Option<Lab> {
    let is_seen_through = coat.cup.main.is_some_and(|main| main.hiding == Hiding::Transparent);
    if coat.what == What::Tint || is_seen_through {
        return look.appearance().own_colour(look.position).map(|own| lab(linear(own)));
    }
    let surface = look.conditions.shelf.surface();
    look.appearance().laying(look.position).map(|laying| lab(laying.mixture.opaque(surface)))
}

/// Whether a coat is what an area is to be painted in. Metals and clears are judged by how they shine; ink or thin paint is
/// the colour of an area that has no other.
fn is_main_colour(coat: &Coat<'_>) -> bool {
    let is_painted = matches!(coat.stage, Stage::Basecoat | Stage::Glaze);
    let glaze = coat.what == What::Tint && is_painted && !coat.is_tinted_clear();
    (glaze || coat.what == What::Colour && coat.stage == Stage::Basecoat)
        && coat.is_all_over()
        && !coat.metallic()
        // A stain takes its light from the ground: see `one_coat_on_dark`.
        && coat.cup.kind() != Some(Kind::OneCoat)
        && !matches!(coat.technique, Technique::Drybrush | Technique::Sponge | Technique::Stipple)
}

/// Whether nothing brings the colour out later, and no light was laid beneath that is to show.
fn is_last_colour(look: &Look<'_>, coat: &Coat<'_>, area: usize) -> bool {
    let mut coats = look.film.finished().coats(area, Zone::Faces);
    coats.all(|other| {
        let later = other.position > coat.position
            && matches!(other.what, What::Colour | What::Tint | What::Ground)
            && !other.stage.weathers();
        !later && other.stage != Stage::Preshade
    })
}

/// Whether nothing but an undercoat lies on the faces yet.
fn is_first_colour(look: &Look<'_>, area: usize) -> bool {
    look.before().coats(area, Zone::Faces).all(|under| under.what == What::Ground)
}

/// Whether a chipping film lies beneath: what is worn off is laid thin.
fn is_to_wear(look: &Look<'_>, area: usize) -> bool {
    look.before().top(area, Zone::Faces).is_some_and(|top| top.what == What::Resist)
}
