//! A brush pushes loose powder about and turns it to mud.

use crate::film::{Coat, Film, View, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, Reach, Stage, Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "pigment-under-brush",
        level: Level::Warning,
        about: "powder is fixed before a brush, a sponge or a cloth works over it",
        why: "the brush drags loose powder along: what lay where dust gathers becomes a smear, and the paint becomes mud",
        group: Group::Washes,
        safety: false,
    },
    example: "'Matt' works over the loose powder of 'Dust' on 'Deck'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| drags(coat)) else { return };
    let before = look.before();
    let smeared =
        look.by_step(|area, zone| loose_powder(look.film, before, look.position, (area, zone)), |powder| powder.step);
    for (powder, areas) in &smeared {
        told.tell_with_own_mend(&RULE, coat.step, Some(powder.step), || {
            let areas = look.area_titles(areas.iter().copied());
            let message =
                format!("{} works over the loose powder of {} on {areas}", look.own_title(), look.title(powder.step));
            let mend = format!(
                "put it before {}, or fix the powder first, or spray this coat as a mist",
                look.title(powder.step)
            );
            let finding = Finding::new(&RULE.check, look.step.places.technique, message, mend);
            look.see(finding, powder.step, "the powder")
        });
    }
}

/// Whether a coat is worked over what lies there. Fixer creeps in from the side, and more powder is only laid on.
pub(in crate::rules) fn drags(coat: &Coat<'_>) -> bool {
    let by_hand = matches!(
        coat.technique,
        Technique::Brush | Technique::Drybrush | Technique::Sponge | Technique::Stipple | Technique::Cloth
    );
    let film = !matches!(coat.what, What::Powder | What::Fixer | What::Decal | What::Texture);
    by_hand && film && coat.reach != Reach::Spots
}

/// The powder that lies loose on top of a zone before the step at a place of the order: laid dry, and neither
/// covered nor set with thinner since.
pub(in crate::rules) fn loose_powder<'f>(
    film: &'f Film<'f>,
    view: View<'f, 'f>,
    upto: usize,
    (area, zone): (usize, Zone),
) -> Option<&'f Coat<'f>> {
    let powder = view.top(area, zone).filter(|coat| coat.is_dry_powder())?;
    let set = (powder.position + 1..upto).any(|later| film.areas(later).contains(&area) && wets_powder(film, later));
    (!set).then_some(powder)
}

/// Whether a step lets thinner run into powder.
fn wets_powder(film: &Film<'_>, position: usize) -> bool {
    let thinner = |step: &crate::guide::Step| step.mix.parts.iter().any(|part| part.paint.kind == Kind::Thinner);
    film.coat(position).is_none()
        && film
            .step(position)
            .is_some_and(|step| matches!(step.stage, Stage::Pigment | Stage::Weather) && thinner(step))
}
