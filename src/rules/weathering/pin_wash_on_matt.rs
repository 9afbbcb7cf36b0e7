//! A pin wash runs along a recess on a smooth surface; on a rough one it creeps and stains.

use crate::bench::Figure;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Stage;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "pin-wash-on-matt",
        level: Level::Warning,
        about: "a panel wash goes on a gloss or satin surface",
        why: "on matt paint the wash soaks in where it is set down, makes tide marks, and can not be wiped clean",
        group: Group::Washes,
        safety: false,
    },
    example: "'Lines' can't run on 'Shell', which is matt",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.stage == Stage::PanelWash) else { return };
    let before = look.before();
    let bench = &look.conditions.bench;
    let rough = look.on_zones(|area, zone| {
        before.top_film(area, zone).filter(|top| top.gloss().0 < bench.get(Figure::PinWashGloss))
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
