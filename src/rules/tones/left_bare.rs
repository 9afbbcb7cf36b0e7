//! A detail touches single spots: an area that gets nothing else keeps its undercoat.

use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "left-bare",
        level: Level::Warning,
        about: "an area that a detail is to colour gets a colour on its faces too",
        why: "a step of the stage 'detail' touches spots if it says nothing else, and all around them stays the undercoat",
        group: Group::Bookkeeping,
        safety: false,
    },
    example: "'Eyes' touches only spots of 'Eyes', and the rest of it stays as 'Ground' left it",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let on_spots =
        |coat: &&Coat<'_>| coat.stage == Stage::Detail && coat.reach == Reach::Spots && coat.what == What::Colour;
    let Some(coat) = look.coat().filter(on_spots) else { return };
    let finished = look.film.finished();
    let bare: Vec<(usize, &Coat<'_>)> = look
        .areas()
        .iter()
        .filter(|area| finished.spots(**area).find(on_spots).is_some_and(|first| first.step == coat.step))
        .filter_map(|area| {
            let coats = || Zone::ALL.iter().flat_map(move |zone| finished.coats(*area, *zone));
            let coloured =
                coats().any(|coat| matches!(coat.what, What::Colour | What::Shade | What::Tint | What::Powder));
            coats().find(|coat| coat.what == What::Ground).filter(|_| !coloured).map(|ground| (*area, ground))
        })
        .collect();
    let Some((_, ground)) = bare.first() else { return };
    told.tell(&RULE, coat.step, Some(ground.step), || {
        let areas = look.area_titles(bare.iter().map(|(area, _)| *area));
        let message = format!(
            "{} touches only spots of {areas}, and the rest of it stays as {} left it",
            look.own_title(),
            look.title(ground.step)
        );
        let mend = "say 'where: all' if it is to cover the area, or add a basecoat for it";
        let finding = Finding::new(&RULE.check, look.step.places.areas, message, mend);
        look.see(finding, ground.step, "what stays bare")
    });
}
