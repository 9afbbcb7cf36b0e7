//! Resin comes out of its mould with release agent on it. A scheme that begins with its undercoat, and names no wash before
//! it, has forgotten it, whether it writes about making ready or not. What has no undercoat begins on a painted model.

use crate::film::{Deed, Preparation, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Material;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "resin-not-washed",
        level: Level::Warning,
        about: "a model of resin is washed before its undercoat",
        why: "release agent stays on cast resin: the undercoat beads, and peels off later with everything on it",
        group: Group::Surface,
        safety: false,
    },
    example: "'Ground' goes onto resin that no step has washed",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.what == What::Ground && coat.is_all_over()) else { return };
    let is_washing = |turn: &crate::film::Turn| matches!(turn.deed, Deed::Prepare(Preparation { washes: true, .. }));
    let washed = look.film.turns().iter().any(is_washing);
    let first = look.film.coats().iter().find(|one| one.what == What::Ground).is_some_and(|one| one.step == coat.step);
    if !look.materials().has(Material::Resin) || !first || washed {
        return;
    }
    told.tell(&RULE, coat.step, None, || {
        let message = format!("{} goes onto resin that no step has washed", look.own_title());
        let mend = "wash it in warm soapy water before this and let it dry a night, in a step of its own or in one that makes ready";
        Finding::new(&RULE.check, look.step.places.stage, message, mend)
    });
}
