//! Most clear coats take the mirror from bright metal, gloss as well as satin. What a matt one does is told by a rule of its own.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Kind;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "mirror-dulled",
        level: Level::Note,
        about: "a varnish over chrome or another mirror finish was tried out first",
        why: "most clear coats dull or darken a mirror, gloss ones too, and none of it comes back",
        group: Group::Metal,
        safety: false,
    },
    example: "'Gloss' goes over the mirror of 'Chrome' on 'Blade'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let matt = look.conditions.bench.get(Figure::MattBelow);
    let dulls =
        |coat: &&Coat<'_>| coat.what == What::Varnish && coat.gloss().0 >= matt && coat.cup.kind() != Some(Kind::Resin);
    let Some(coat) = look.coat().filter(dulls) else { return };
    let before = look.before();
    let mirrors = look.by_step(
        |area, zone| before.top_film(area, zone).filter(|top| top.is_mirror() && before.mask(area).is_none()),
        |mirror| mirror.step,
    );
    for (mirror, areas) in &mirrors {
        told.tell(&RULE, coat.step, Some(mirror.step), || {
            let areas = look.area_titles(areas.iter().copied());
            let message =
                format!("{} goes over the mirror of {} on {areas}", look.own_title(), look.title(mirror.step));
            let mend = format!("try it on a painted spoon, or leave {areas} without a varnish");
            let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend);
            look.see(finding, mirror.step, "the mirror")
        });
    }
}
