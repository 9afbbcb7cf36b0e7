//! A sprayed varnish or primer that dries too fast in damp or cold air turns white. Damp air frosts what a solvent leaves in
//! haste and what is matt; a primer or a gloss in water only takes longer in it.

use crate::bench::{Bench, Figure};
use crate::film::{Coat, What};
use crate::measure::Humidity;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Technique};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "frosting-risk",
        level: Level::Warning,
        about: "cans, lacquers and matt varnish are sprayed in air of at most 60 % humidity, varnish and primer at 15 °C at least",
        why: "the fresh film cools until water falls out of the air into it, and a white veil lies over the finished work",
        group: Group::Varnish,
        safety: false,
    },
    example: "'Ground' is sprayed on 'Hull' at 72 % humidity, and may frost",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let frosts = |coat: &&Coat<'_>| coat.technique.sprays() && matches!(coat.what, What::Varnish | What::Ground);
    let Some(coat) = look.coat().filter(frosts) else { return };
    let room = look.around.room;
    let bench = &look.conditions.bench;
    let damp = room.humidity.map(Humidity::as_percent).filter(|percent| *percent > bench.get(Figure::FrostDamp));
    let damp = damp.filter(|_| blushes(coat, bench));
    let cold = room.temperature.map(|celsius| celsius.0).filter(|celsius| *celsius < bench.get(Figure::FrostCold));
    let air = match (damp, cold) {
        (None, None) => return,
        (Some(percent), None) => format!("at {percent:.0} % humidity"),
        (None, Some(celsius)) => format!("at {celsius:.0} °C"),
        (Some(percent), Some(celsius)) => format!("at {percent:.0} % humidity and {celsius:.0} °C"),
    };
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(look.areas().iter().copied());
        let message = format!("{} is sprayed on {areas} {air}, and may frost", look.own_title());
        let wait = "wait for a dry, warm day and let the model warm up first";
        let mend = match coat.technique {
            Technique::SprayCan => format!("{wait}, or take a product for the brush"),
            _ => format!("brush it on, or {wait}"),
        };
        Finding::new(&RULE.check, look.step.places.technique, message, mend)
    });
}

/// Whether water falls out of damp air into a sprayed film: its solvent cools it in haste, or it is a matt varnish.
fn blushes(coat: &Coat<'_>, bench: &Bench) -> bool {
    let hasty = matches!(coat.cup.strongest(), Family::Alcohol | Family::Lacquer | Family::TwoPack);
    let matt = coat.what == What::Varnish && coat.gloss().0 < bench.get(Figure::MattBelow);
    hasty || matt || coat.technique == Technique::SprayCan
}
