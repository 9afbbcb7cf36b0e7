//! A tinted clear glows because light comes back through it; over a dark ground none comes back.

use crate::bench::Figure;
use crate::film::{Coat, Opacity, What};
use crate::measure::Colour;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "glaze-without-ground",
        level: Level::Warning,
        about: "a tinted clear lies over bright metal, or at least over a light ground",
        why: "light passes a tinted clear twice; a dark ground swallows it, and however many coats follow, the area stays dark",
        group: Group::Metal,
        safety: false,
    },
    example: "'Amber' lays a clear colour over a dark ground on 'Shell'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| is_meant_to_glow(coat)) else { return };
    let before = look.before();
    let dark = look.on_zones(|area, zone| before.seen(area, zone).filter(|ground| is_dark(look, ground, (area, zone))));
    let Some((_, ground)) = dark.first() else { return };
    let later = look.film.coats().iter().find(|other| {
        other.metallic()
            && other.position > coat.position
            && look.film.areas(other.position).iter().any(|area| dark.iter().any(|(dark, _)| dark == area))
    });
    let told_of = Some(later.map_or(ground.step, |metal| metal.step));
    let finding = || {
        let areas = look.area_titles(dark.iter().map(|(area, _)| *area));
        let message = format!("{} lays a clear colour over a dark ground on {areas}", look.own_title());
        let mend = format!("add a bright metal or a light ground on {areas} before this");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, ground.step, "the dark ground")
    };
    // Where no metal comes later, no move brings one.
    if later.is_some() {
        told.tell(&RULE, coat.step, told_of, finding);
    } else {
        told.tell_with_own_mend(&RULE, coat.step, told_of, finding);
    }
}

/// Whether a coat wants light from beneath; a tinted clear that is led into the recesses alone is there to darken them.
fn is_meant_to_glow(coat: &Coat<'_>) -> bool {
    coat.is_tinted_clear() && coat.stage == Stage::Glaze && coat.reach != Reach::Recesses
}

/// A dark undercoat swallows light however thinly it was sprayed; any other dark paint where it covers, a basecoat also
/// where it is dark by prediction.
fn is_dark(look: &Look<'_>, ground: &Coat<'_>, (area, zone): (usize, Zone)) -> bool {
    let limit = look.conditions.bench.get(Figure::DarkGround);
    let dark = |colour: Colour| colour.lightness() < limit;
    let predicted = || look.showed(area, zone).lab().is_some_and(|lab| lab.l < limit);
    let basecoat = ground.stage == Stage::Basecoat && ground.what == What::Colour;
    let takes_over = ground.what == What::Ground || ground.opacity >= Opacity::Covering || (basecoat && predicted());
    !ground.metallic() && takes_over && look.appearance().own_colour(ground.position).is_some_and(dark)
}
