//! Resin comes out of its mould with release agent on it. Who writes how the model is made ready, and names no wash, has
//! forgotten it; where nothing is written about making ready, nothing is asked.

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
    let prepared = |turn: &crate::film::Turn| match turn.deed {
        Deed::Prepare(Preparation { washes, .. }) => Some(washes),
        _ => None,
    };
    let prepared: Vec<bool> = look.film.turns().iter().filter_map(prepared).collect();
    let first = look.film.coats().iter().find(|one| one.what == What::Ground).is_some_and(|one| one.step == coat.step);
    let forgotten = !prepared.is_empty() && !prepared.contains(&true);
    if !look.materials().has(Material::Resin) || !first || !forgotten {
        return;
    }
    told.tell(&RULE, coat.step, None, || {
        let message = format!("{} goes onto resin that no step has washed", look.own_title());
        let mend = "wash it in warm soapy water before this and let it dry a night, in a step of its own or in one that makes ready";
        Finding::new(&RULE.check, look.step.places.stage, message, mend)
    });
}
