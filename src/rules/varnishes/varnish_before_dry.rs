//! Varnish over paint that still gives off water shuts the water in.

use crate::bench::{Figure, Minutes};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::Family;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "varnish-before-dry",
        level: Level::Warning,
        about: "water-based paint rests for some hours before it is varnished",
        why: "the varnish clouds, lifts the colour with the brush, or stays soft for weeks",
        group: Group::Varnish,
        safety: false,
    },
    example: "'Matt' varnishes 'Shell' 1 h after 'Peat'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat() else { return };
    let before = look.before();
    let rest = Minutes(look.conditions.bench.get(Figure::VarnishAfterWater));
    let wait = |under: &Coat<'_>| rest.min(under.drying.cured).max(under.drying.recoat);
    let is_young = |under: &&Coat<'_>| is_varnished(coat, under) && before.age(under) < wait(under);
    let young = look.by_step(
        |area, zone| {
            let spots = if coat.is_all_over() { before.spots(area).next_back() } else { None };
            [before.top(area, zone), spots].into_iter().flatten().find(is_young)
        },
        |under| under.step,
    );
    for (under, areas) in &young {
        told.tell(&RULE, under.step, Some(coat.step), || {
            let areas = look.area_titles(areas.iter().copied());
            let age = rested(before.age(under));
            let message = format!("{} varnishes {areas} {age} after {}", look.own_title(), look.title(under.step));
            let mend = format!("let it dry longer: 'dry: {}', better a day", needed(wait(under)));
            let finding = Finding::new(&RULE.check, look.step_at(under.step).places.dry, message, mend);
            look.see(finding, coat.step, "the varnish")
        });
    }
}

/// Whether a water-based varnish goes on water-based colour.
pub(in crate::rules) fn is_varnished(coat: &Coat<'_>, under: &Coat<'_>) -> bool {
    coat.what == What::Varnish
        && coat.cup.strongest() == Family::Water
        && under.cup.family() == Family::Water
        && matches!(under.what, What::Colour | What::Shade | What::Tint)
}
