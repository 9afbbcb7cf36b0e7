//! Tape on young paint takes it along, or leaves its weave in it.

use crate::bench::{Figure, Minutes};
use crate::film::{Reason, is_soft_mask};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::drying::young::young;
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};

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

/// Below touch dry tape ruins the paint; until it is safe it may. Half the time that it takes until a film is safe is
/// surely too short; between that and the whole of it tape and paint decide. Putty only leaves marks, and rests on what the film
/// itself would have waited for.
fn look(look: &Look<'_>, told: &mut Told) {
    let (bench, putty) = (&look.conditions.bench, is_soft_mask(look.step));
    let young = young(look, |under, need, age| {
        let safe = under.drying.safe.times(bench.get(Figure::SolventSafeShare)).max(under.drying.recoat);
        if need.reason != Reason::Tape || !look.is_short(age, if putty { need.time } else { safe }) {
            return None;
        }
        let wet = age < under.drying.touch.max(Minutes(bench.get(Figure::TapeLeast)));
        Some(match (putty, wet) {
            (false, true) => Level::Error,
            (true, false) => Level::Note,
            _ => Level::Warning,
        })
    });
    let Some(young) = young else { return };
    told.tell(&RULE, young.step, Some(look.index), || {
        let areas = look.area_titles(young.areas.iter().copied());
        let age = rested(young.age);
        let message = format!("{} masks {areas} {age} after {}", look.own_title(), look.title(young.under.step));
        let tape = || young.need.time.max(young.under.drying.safe);
        let mend = format!("let it harden: 'dry: {}'", needed(if putty { young.need.time } else { tape() }));
        let finding = Finding::new(&RULE.check, look.step_at(young.step).places.dry, message, mend).at(young.level);
        look.see(finding, look.index, "the mask")
    });
}
