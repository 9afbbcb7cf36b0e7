//! A coat that is painted over while it is half dry tears under the brush.
//!
//! What other rules say with a longer wait is left to them: decals, varnish on colour, anything on oil and enamel.
//! `dry: 0 min` between two brushed colours of one family is no short wait: they are blended while both are wet.

use super::over_uncured::is_sealed_soft;
use crate::bench::{Figure, Minutes};
use crate::film::{Coat, What};
use crate::measure::Time;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::varnishes::varnish_before_dry::is_varnished;
use crate::rules::{Look, Rule, Told};
use crate::trade::Technique;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "dry-too-short",
        level: Level::Warning,
        about: "the drying time that a step gives is as long as its paint needs before the next coat there",
        why: "the brush drags up a half-dry film in blotches, and a spray shuts its solvent in",
        group: Group::Drying,
        safety: false,
    },
    example: "'Red' gets 5 min on 'Shell' before 'Light' follows",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let takes_any = |what: What| matches!(what, What::Powder | What::Fixer | What::Decal);
    let Some(coat) = look.coat().filter(|coat| !takes_any(coat.what)) else { return };
    let before = look.before();
    let wet = look.by_step(
        |area, zone| {
            let under = before.top(area, zone)?;
            let given = look.step_at(under.step).dry.is_some();
            let left_to_others = is_sealed_soft(coat, under) || is_varnished(coat, under);
            let counts = given && !left_to_others && !is_blended(look, coat, under);
            (counts && before.age(under) < look.nearly(under, least(look, under))).then_some(under)
        },
        |under| under.step,
    );
    for (under, areas) in &wet {
        told.tell(&RULE, under.step, Some(coat.step), || {
            let areas = look.area_titles(areas.iter().copied());
            let (age, wait) = (rested(before.age(under)), needed(under.drying.recoat));
            let message =
                format!("{} gets {age} on {areas} before {} follows", look.title(under.step), look.own_title());
            let room = look.by_room(under);
            let mend = format!("give it what it needs before it is painted over: 'dry: {wait}'{room}");
            let finding = Finding::new(&RULE.check, look.step_at(under.step).places.dry, message, mend);
            look.see(finding, coat.step, "the next coat there")
        });
    }
}

/// Whether two brushed colours of one family are worked into one another: the author gives the lower one no time.
fn is_blended(look: &Look<'_>, coat: &Coat<'_>, under: &Coat<'_>) -> bool {
    let brushed = |coat: &Coat<'_>| {
        matches!(coat.technique, Technique::Brush | Technique::Stipple)
            && matches!(coat.what, What::Colour | What::Shade | What::Tint)
    };
    let at_once = look.step_at(under.step).dry.is_some_and(|dry| dry == Time::default());
    at_once && brushed(coat) && brushed(under) && coat.cup.family() == under.cup.family()
}

/// The wait below which a coat is surely wet: what its label says, or half of what is usual for its family.
fn least(look: &Look<'_>, under: &Coat<'_>) -> Minutes {
    let share = if under.drying.labelled { 1.0 } else { look.conditions.bench.get(Figure::SurelyTooShort) };
    under.drying.recoat.times(share)
}
