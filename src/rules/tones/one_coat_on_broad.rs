//! A one-coat paint finds no folds to run into on a broad, smooth face: it dries there in pools and tide marks.

use crate::bench::Figure;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, ModelKind, Reach};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "one-coat-on-broad",
        level: Level::Note,
        about: "a one-coat paint is brushed where there is relief for it to run into",
        why: "on smooth plates it has nowhere to go, and dries with pools and tide marks that show",
        group: Group::Washes,
        safety: false,
    },
    example: "'Green hull' floods a stain over broad, smooth faces: 'Hull'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let floods = look.coat().filter(|coat| {
        coat.cup.kind() == Some(Kind::OneCoat) && coat.reach == Reach::All && !coat.technique.is_gentle()
    });
    let Some(coat) = floods.filter(|_| is_smooth(look)) else { return };
    let broad: Vec<usize> = look.areas().iter().copied().filter(|area| is_broad(look, *area)).collect();
    if broad.is_empty() {
        return;
    }
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(broad.iter().copied());
        let message = format!("{} floods a stain over broad, smooth faces: {areas}", look.own_title());
        let mend = "spray it there or stipple it, or thin it with its medium and lay two coats; keep the flood for folds and fur";
        Finding::new(&RULE.check, look.step.places.paints, message, mend)
    });
}

/// Whether the model is one of plates: a vehicle or an aircraft.
fn is_smooth(look: &Look<'_>) -> bool {
    matches!(look.scheme.model.kind, Some(ModelKind::Vehicle | ModelKind::Aircraft))
}

/// Whether an area is a large part of the model.
pub(in crate::rules) fn is_broad(look: &Look<'_>, area: usize) -> bool {
    let least = look.conditions.bench.get(Figure::BroadFrom);
    look.scheme.areas.get(area).and_then(|area| area.share).is_some_and(|share| share.as_fraction().as_f64() >= least)
}
