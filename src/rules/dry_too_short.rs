//! A coat that is painted over while it is half dry tears under the brush.
//!
//! `dry: 0 min` between two brushed colours of one family is no short wait: they are blended while both are wet.

use super::look::spell;
use super::{Look, Rule, Told};
use crate::film::{Coat, Figure, Minutes, What};
use crate::report::{Check, Finding, Group, Level};
use crate::trade::Technique;

pub(super) static RULE: Rule = Rule {
    check: Check {
        id: "dry-too-short",
        level: Level::Warning,
        about: "the drying time that a step gives is as long as its paint needs before the next coat there",
        why: "the brush drags up a half-dry film in blotches, and a spray shuts its solvent in",
        group: Group::Drying,
        safety: false,
    },
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| !matches!(coat.what, What::Powder | What::Fixer)) else { return };
    let before = look.before();
    let wet = look.on_zones(|area, zone| {
        let under = before.top(area, zone)?;
        let given = look.step_at(under.step).dry?;
        let blended = Minutes::from(given) <= Minutes::default() && blends(under) && blends(coat);
        let blended = blended && coat.cup.family() == under.cup.family();
        (!blended && before.age(under) < needed(look, under)).then_some(under)
    });
    let Some((_, under)) = wet.first() else { return };
    told.tell(under.step, Some(coat.step), || {
        let areas = look.area_titles(wet.iter().map(|(area, _)| *area));
        let (age, needed) = (spell(before.age(under)), spell(under.drying.recoat));
        let message = format!("{} gets {age} on {areas} before {} follows", look.title(under.step), look.own_title());
        let mend = format!("give it what it needs before it is painted over: 'dry: {needed}'");
        let finding = Finding::new(&RULE.check, look.step_at(under.step).places.dry, message, mend);
        look.see(finding, coat.step, "the next coat there")
    });
}

/// Whether a coat can be worked into a wet one, or a later coat into it.
fn blends(coat: &Coat<'_>) -> bool {
    matches!(coat.technique, Technique::Brush | Technique::Stipple)
        && matches!(coat.what, What::Colour | What::Shade | What::Tint)
}

/// The wait below which a coat is surely wet: what its label says, or half of what is usual for its family.
fn needed(look: &Look<'_>, under: &Coat<'_>) -> Minutes {
    let share = if under.drying.labelled { 1.0 } else { look.conditions.bench.get(Figure::SurelyTooShort) };
    under.drying.recoat.times(share)
}
