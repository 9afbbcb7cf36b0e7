//! Under a decal on a rough surface stays air, and air shines like silver.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Zone;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "decal-needs-gloss",
        level: Level::Error,
        about: "a decal goes on a gloss surface, or on a strong satin",
        why: "air stays under the film in the roughness of a matt paint, and the decal has a silver edge for good",
        group: Group::Decals,
        safety: false,
    },
    example: "'Marks' puts a decal on 'Shell', which is too dull for it",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(decal) = look.coat().filter(|coat| coat.what == What::Decal) else { return };
    let before = look.before();
    let needed = look.conditions.bench.get(Figure::DecalGloss);
    let rough = |coat: &&Coat<'_>| coat.gloss().0 < needed;
    let dull: Vec<(usize, &Coat<'_>)> = look
        .areas()
        .iter()
        .filter_map(|area| {
            let top = before.top_film(*area, Zone::Faces).filter(rough)?;
            let patch = before.spots(*area).next_back();
            let smooth =
                patch.is_some_and(|spot| spot.what == What::Varnish && !rough(&spot) && spot.position > top.position);
            (!smooth).then_some((*area, top))
        })
        .collect();
    let Some((_, top)) = dull.first() else { return };
    told.tell(&RULE, decal.step, Some(top.step), || {
        let areas = look.area_titles(dull.iter().map(|(area, _)| *area));
        let message = format!("{} puts a decal on {areas}, which is too dull for it", look.own_title());
        let mend = format!("add a gloss varnish on {areas} before this");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, top.step, "what it lies on")
    });
}
