//! Light from above that is sprayed when the colours are on covers them.

use crate::film::{Coat, Opacity, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "preshade-over-colour",
        level: Level::Warning,
        about: "a preshade is laid before the colours that it shines through",
        why: "its white or grey lies over the colour like dust, and nothing is left for it to shine through",
        group: Group::Order,
        safety: false,
    },
    example: "'Light from above' is sprayed over the colour of 'Red' on 'Cloth'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let preshades = |coat: &&Coat<'_>| coat.stage == Stage::Preshade && coat.opacity > Opacity::Clear;
    let Some(coat) = look.coat().filter(preshades) else { return };
    let before = look.before();
    let colour = |coat: &&Coat<'_>| {
        matches!(coat.what, What::Colour | What::Tint) && coat.is_all_over() && coat.stage != Stage::Preshade
    };
    let over: Vec<(usize, &Coat<'_>)> = look
        .areas()
        .iter()
        .filter(|area| !painted_again(look, coat, **area))
        .filter_map(|area| Some((*area, before.coats(*area, Zone::Faces).rfind(colour)?)))
        .collect();
    let Some((_, first)) = over.first() else { return };
    told.tell(&RULE, coat.step, Some(first.step), || {
        let areas = look.area_titles(over.iter().map(|(area, _)| *area));
        let title = look.title(first.step);
        let does = if coat.technique.sprays() { "sprayed" } else { "laid" };
        let message = format!("{} is {does} over the colour of {title} on {areas}", look.own_title());
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, format!("put it before {title}"));
        look.see(finding, first.step, "the colour")
    });
}

/// Whether the area gets its colour afterwards, so that what lies beneath the preshade is no more than a ground.
fn painted_again(look: &Look<'_>, coat: &Coat<'_>, area: usize) -> bool {
    let later = |other: &Coat<'_>| other.position > coat.position && other.stage == Stage::Basecoat;
    look.film.finished().coats(area, Zone::Faces).any(later)
}
