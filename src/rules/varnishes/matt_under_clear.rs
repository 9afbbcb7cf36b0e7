//! A matt varnish between metal and clear: the light is scattered before it comes to the metal, and the glow is gone.

use crate::bench::Figure;
use crate::film::{Coat, View, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Zone;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "matt-under-clear",
        level: Level::Warning,
        about: "no matt varnish lies between a metal and the clear colour over it",
        why: "a clear glows because light passes it, comes back from the metal and passes it again; a matt film scatters it on the way",
        group: Group::Metal,
        safety: false,
    },
    example: "'Amber' lays a clear colour on 'Shell' over the matt of 'Matt'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.is_tinted_clear()) else { return };
    let below = look.conditions.bench.get(Figure::MattBelow);
    let before = look.before();
    let veiled = look.by_step(|area, zone| veil(before, area, zone, below), |matt| matt.step);
    for (matt, areas) in &veiled {
        told.tell_with_own_mend(&RULE, coat.step, Some(matt.step), || {
            let areas = look.area_titles(areas.iter().copied());
            let message = format!(
                "{} lays a clear colour on {areas} over the matt of {}",
                look.own_title(),
                look.title(matt.step)
            );
            let mend = format!("leave {areas} out of {}, or take a gloss varnish there", look.title(matt.step));
            let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
            look.see(finding, matt.step, "the matt varnish")
        });
    }
}

/// The matt varnish on top of a zone, where metal lies right under it.
fn veil<'a>(view: View<'a, 'a>, area: usize, zone: Zone, matt_below: f64) -> Option<&'a Coat<'a>> {
    let matt = view.top_film(area, zone).filter(|top| top.what == What::Varnish && top.gloss().0 < matt_below)?;
    let under = view.coats(area, zone).rfind(|coat| coat.position < matt.position && !coat.is_clear_film())?;
    under.metallic().then_some(matt)
}
