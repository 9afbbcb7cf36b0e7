//! Tape on young paint takes it along, or leaves its weave in it.

use crate::bench::Figure;
use crate::film::{Coat, Deed};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::Zone;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "mask-on-uncured",
        level: Level::Error,
        about: "a mask goes on paint that has hardened",
        why: "tape lifts a young film from its edges or prints its weave into it, and neither can be retouched unseen",
        group: Group::Masks,
        safety: false,
    },
    example: "'Tape' masks 'Cloth' 2 h after 'Red'",
    ordering: false,
    look,
};

/// Half the time after which a film takes a mask is surely too short; between that and the whole of it tape and paint
/// decide.
fn look(look: &Look<'_>, told: &mut Told) {
    if look.film.turn(look.position).is_none_or(|turn| turn.deed != Deed::Mask) {
        return;
    }
    let before = look.before();
    let share = look.conditions.bench.get(Figure::SolventSafeShare);
    let is_young = |coat: &&Coat<'_>| before.age(coat) < coat.drying.safe.times(share);
    let young = look.on_zones(|area, zone| {
        let spot = before.spots(area).next_back().filter(|_| zone == Zone::Faces);
        [before.top_film(area, zone), spot].into_iter().flatten().find(is_young)
    });
    let Some((_, under)) = young.iter().max_by_key(|(_, coat)| coat.position) else { return };
    told.tell(&RULE, under.step, Some(look.index), || {
        let areas = look.area_titles(young.iter().map(|(area, _)| *area));
        let age = rested(before.age(under));
        let message = format!("{} masks {areas} {age} after {}", look.own_title(), look.title(under.step));
        let mend = format!("let it harden: 'dry: {}'", needed(under.drying.safe));
        let finding = Finding::new(&RULE.check, look.step_at(under.step).places.dry, message, mend);
        look.see(finding, look.index, "the mask")
    });
}
