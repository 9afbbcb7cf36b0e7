//! A wash over light that was painted on runs into it and takes it back.
//!
//! Drybrushing is left alone: a wash over it is a usual way to bind the light in. So is light that is painted on again.

use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "highlight-under-wash",
        level: Level::Note,
        about: "a wash over everything comes before the highlights",
        why: "it stains the light edges too, and they have to be painted again",
        group: Group::Order,
        safety: false,
    },
    example: "'Peat' goes over the highlights of 'Edges' on 'Cloth'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| washes(coat)) else { return };
    let lost: Vec<(usize, &Coat<'_>)> =
        look.areas().iter().filter_map(|area| Some((*area, light(look, *area)?))).collect();
    let Some((_, light)) = lost.first() else { return };
    told.tell(&RULE, coat.step, Some(light.step), || {
        let areas = look.area_titles(lost.iter().map(|(area, _)| *area));
        let message = format!("{} goes over the highlights of {} on {areas}", look.own_title(), look.title(light.step));
        let title = look.title(light.step);
        let mend = format!("keep it in the recesses, paint the highlights again, or put it right before {title}");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, light.step, "the highlights")
    });
}

/// Whether a coat is a wash that goes over everything, or a one-coat paint that is used as one.
fn washes(coat: &Coat<'_>) -> bool {
    let wash = coat.what == What::Shade || (coat.stage == Stage::Shade && coat.cup.kind() == Some(Kind::OneCoat));
    let floods = coat.reach == Reach::All && !coat.technique.sprays() && coat.stage == Stage::Shade;
    wash && floods && !coat.metallic()
}

/// The first highlights on the edges of an area that this would stain, if they are not painted again.
fn light<'a>(look: &Look<'a>, area: usize) -> Option<&'a Coat<'a>> {
    let is_light = |coat: &Coat<'_>| {
        coat.stage == Stage::Highlight && coat.what == What::Colour && !coat.technique.is_gentle() && !coat.metallic()
    };
    let position = look.position;
    let on_edges = || look.film.finished().coats(area, Zone::Edges).collect::<Vec<_>>().into_iter();
    let again = on_edges().any(|coat| coat.position > position && coat.what == What::Colour);
    let before = look.before().mask(area).is_none().then(on_edges)?;
    before.into_iter().filter(|coat| coat.position < position).find(|coat| is_light(coat)).filter(|_| !again)
}
