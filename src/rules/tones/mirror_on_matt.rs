//! A mirror is as smooth as what it lies on: over a matt ground chrome comes out as grey metal.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "mirror-on-matt",
        level: Level::Note,
        about: "chrome or another mirror finish goes onto a smooth, glossy ground",
        why: "a matt ground is rough: it scatters the light, and the mirror comes out as grey metal",
        group: Group::Metal,
        safety: false,
    },
    example: "'Chrome' goes onto the matt of 'Grey' on 'Blade'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.is_mirror()) else { return };
    let (before, below) = (look.before(), look.conditions.bench.get(Figure::MattBelow));
    let is_matt = |top: &&Coat<'_>| {
        matches!(top.what, What::Ground | What::Colour | What::Varnish) && !top.metallic() && top.gloss().0 < below
    };
    let rough = look.by_step(|area, zone| before.top_film(area, zone).filter(is_matt), |matt| matt.step);
    for (matt, areas) in &rough {
        told.tell(&RULE, coat.step, Some(matt.step), || {
            let areas = look.area_titles(areas.iter().copied());
            let message = format!("{} goes onto the matt of {} on {areas}", look.own_title(), look.title(matt.step));
            let mend = "lay a gloss black under it, as most mirror finishes want it, or try it on a painted spoon";
            let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend);
            look.see(finding, matt.step, "the matt ground")
        });
    }
}
