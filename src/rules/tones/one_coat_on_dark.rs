//! A one-coat paint is a stain: it takes its light from the ground, and over a dark one it is lost.

use crate::bench::Figure;
use crate::colour::{Ground, Stack};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, Reach, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "one-coat-on-dark",
        level: Level::Warning,
        about: "a one-coat paint is laid over a ground that is light enough to shine through it",
        why: "it shades and colours by what shows through; over a dark ground there is nothing but dark",
        group: Group::Order,
        safety: false,
    },
    example: "'Coat' floods a stain over a dark ground on 'Coat': by prediction it comes out 37 darker than over white",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let is_stain = look.coat().filter(|coat| coat.cup.kind() == Some(Kind::OneCoat) && coat.reach == Reach::All);
    let Some((coat, laying)) = is_stain.zip(look.appearance().laying(look.position)) else { return };
    let bench = &look.conditions.bench;
    // A second coat is no lighter than the first.
    let laid = laying.coat * coat.share_in(Zone::Faces, bench);
    let over_white = Stack::on(&Ground::grey(1.0), look.conditions.shelf.surface()).lay(&laying.mixture, laid).lab().l;
    // Light that was sprayed or brushed onto a dark ground is what the stain is for there.
    let ground = |area: usize, zone: Zone| Some(look.showed(area, zone).lab()?.l);
    let is_dark = |area: usize| {
        let lightest = ground(area, Zone::Faces)?.max(ground(area, Zone::Edges)?);
        Some(lightest < bench.get(Figure::StainGroundFrom))
    };
    let lost = |area: usize| Some(over_white - look.shows(area, Zone::Faces).lab()?.l);
    let dark: Vec<(usize, f64)> = look
        .areas()
        .iter()
        .filter(|area| is_dark(**area) == Some(true))
        .filter_map(|area| Some((*area, lost(*area)?)))
        .filter(|(_, lost)| *lost >= bench.get(Figure::DarkerFrom))
        .collect();
    let Some(most) = dark.iter().map(|(_, lost)| *lost).reduce(f64::max) else { return };
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(dark.iter().map(|(area, _)| *area));
        let message = format!(
            "{} floods a stain over a dark ground on {areas}: by prediction it comes out {most:.0} darker than over white",
            look.own_title()
        );
        let mend = "lay a light ground beneath it, or drybrush and spray light onto the dark one first";
        Finding::new(&RULE.check, look.step.places.paints, message, mend)
    });
}
