//! Varnish over paint that still gives off water shuts the water in.

use crate::bench::{Figure, Minutes};
use crate::film::{Coat, Reason, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::drying::young::young;
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Kind, Reach, Technique};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "varnish-before-dry",
        level: Level::Warning,
        about: "water-based paint rests for some hours before it is varnished",
        why: "what shuts it in clouds, lifts the colour with the brush, or stays soft for weeks",
        group: Group::Varnish,
        safety: false,
    },
    example: "'Matt' varnishes 'Shell' 1 h after 'Peat'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.what == What::Varnish) else { return };
    let young = young(look, |under, need, age| {
        if matches!(need.reason, Reason::Varnish | Reason::Pour | Reason::Spirit) {
            harm(look, coat, under, age)
        } else {
            None
        }
    });
    let Some(young) = young else { return };
    told.tell(&RULE, young.step, Some(coat.step), || {
        let areas = look.area_titles(young.areas.iter().copied());
        let age = rested(young.age);
        let does = if coat.cup.kind() == Some(Kind::Resin) { "pours resin on" } else { "varnishes" };
        let message = format!("{} {does} {areas} {age} after {}", look.own_title(), look.title(young.under.step));
        let mend = if young.level == Level::Note {
            format!("let it dry longer: 'dry: {}', better overnight", needed(rest(look, young.under)))
        } else {
            format!("let it dry longer: 'dry: {}'", needed(young.need.time))
        };
        let finding = Finding::new(&RULE.check, look.step_at(young.step).places.dry, message, mend).at(young.level);
        look.see(finding, coat.step, if does == "varnishes" { "the varnish" } else { "the resin" })
    });
}

/// Within its recoat time paint is dragged up or clouds. For some hours after it a brush still drags up what is thick and
/// soft: a wash, a one-coat paint. Over anything else, and as a mist, it mostly goes well; over what is hardly there at
/// all (drybrushing, dots, lines, mists of paint) always.
fn harm(look: &Look<'_>, coat: &Coat<'_>, under: &Coat<'_>, age: Minutes) -> Option<Level> {
    let bench = &look.conditions.bench;
    let dabbed = matches!(under.reach, Reach::Spots | Reach::Edges);
    let next_to_nothing = dabbed || under.technique.is_gentle() || under.technique == Technique::Airbrush;
    let least = if dabbed && coat.technique.sprays() {
        under.drying.touch
    } else {
        under.drying.recoat.max(Minutes(bench.get(Figure::VarnishLeast)))
    };
    if look.is_short(age, least) {
        return Some(Level::Warning);
    }
    if coat.cup.kind() == Some(Kind::Resin) {
        // Water that is shut in under it can't get out any more, and stands in it as bubbles and milk.
        return look.is_short(age, rest(look, under)).then_some(Level::Warning);
    }
    if under.cup.family() != Family::Water || next_to_nothing || !look.is_short(age, rest(look, under)) {
        return None;
    }
    let soft = under.what == What::Shade || under.cup.kind() == Some(Kind::OneCoat);
    let drags = !coat.technique.sprays() && soft;
    Some(if drags { Level::Warning } else { Level::Note })
}

/// How long water-based paint rests under a varnish at least.
fn rest(look: &Look<'_>, under: &Coat<'_>) -> Minutes {
    Minutes(look.conditions.bench.get(Figure::VarnishAfterWater)).min(under.drying.cured)
}
