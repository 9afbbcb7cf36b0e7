//! A pin wash runs along a recess on a smooth surface; on a rough one it creeps and stains.

use crate::bench::{Bench, Figure};
use crate::film::{Coat, View, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "pin-wash-on-matt",
        level: Level::Warning,
        about: "a panel wash goes on a gloss or satin surface",
        why: "on matt paint the wash soaks in where it is set down, makes tide marks, and cannot be wiped clean",
        group: Group::Washes,
        safety: false,
    },
    example: "'Lines' can't run on 'Shell', which is matt",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| is_pin_wash(coat)) else { return };
    let before = look.before();
    let bench = &look.conditions.bench;
    let rough = look.on_zones(|area, zone| {
        surface(before, (area, zone), bench).filter(|top| top.gloss().0 < bench.get(Figure::PinWashGloss))
    });
    let Some((_, top)) = rough.first() else { return };
    told.tell(&RULE, coat.step, Some(top.step), || {
        let areas = look.area_titles(rough.iter().map(|(area, _)| *area));
        let message = format!("{} can't run on {areas}, which is matt", look.own_title());
        let mend = format!("add a gloss or satin varnish on {areas} before this");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, top.step, "the matt surface")
    });
}

/// Whether a wash is to run along lines: grime over all of a part is meant to stay where it dries.
fn is_pin_wash(coat: &Coat<'_>) -> bool {
    coat.stage == Stage::PanelWash && coat.reach != Reach::All
}

/// The film that the wash runs on. A filter is hardly more than the thinner that is gone: it leaves the surface as it was.
fn surface<'f>(before: View<'f, 'f>, (area, zone): (usize, Zone), bench: &Bench) -> Option<&'f Coat<'f>> {
    before.coats(area, zone).rfind(|coat| coat.what != What::Powder && !coat.is_filter(bench))
}
