//! Oil and enamel washes are rubbed and wiped in white spirit; paint without a clear coat comes along.

use crate::bench::{Bench, Figure};
use crate::film::{Coat, View, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "enamel-on-unsealed",
        level: Level::Warning,
        about: "washes and weathering in enamel or oil go on a sealed, dry surface",
        why: "wiping with white spirit rubs through bare paint, and the wash stains what it should only lie on",
        group: Group::Washes,
        safety: false,
    },
    example: "'Streaks' goes on 'Boards' in white spirit, and nothing seals the paint there",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| is_wiped(coat)) else { return };
    let before = look.before();
    let bench = &look.conditions.bench;
    let unsealed = look.on_zones(|area, zone| beneath(before, area, zone).filter(|under| is_open(under, bench)));
    if let Some((_, under)) = unsealed.first() {
        told.tell(&RULE, coat.step, Some(under.step), || {
            let areas = look.area_titles(unsealed.iter().map(|(area, _)| *area));
            let message =
                format!("{} goes on {areas} in white spirit, and nothing seals the paint there", look.own_title());
            let mend = format!("add a gloss or satin varnish on {areas} before this");
            let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
            look.see(finding, under.step, "the open paint")
        });
        return;
    }
    let share = bench.get(Figure::SolventSafeShare);
    let young = look.on_zones(|area, zone| {
        let seal = beneath(before, area, zone).filter(|under| under.is_clear_film())?;
        (before.age(seal) < seal.drying.safe.times(share)).then_some(seal)
    });
    let Some((_, seal)) = young.first() else { return };
    told.tell(&RULE, coat.step, Some(seal.step), || {
        let age = rested(before.age(seal));
        let message = format!("{} goes on {} {age} after it was laid", look.own_title(), look.title(seal.step));
        let mend = format!("let {} dry for at least {}", look.title(seal.step), needed(seal.drying.safe.times(share)));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, seal.step, "the young seal")
    });
}

/// What the wash lies on as a surface: chips are specks on it, and the paint beneath them is what could be rubbed.
fn beneath<'a>(before: View<'a, 'a>, area: usize, zone: Zone) -> Option<&'a Coat<'a>> {
    let top = before.beneath_weathering(area, zone)?;
    if top.stage != Stage::Chip {
        return Some(top);
    }
    let powder = |coat: &Coat<'_>| matches!(coat.what, What::Powder | What::Fixer);
    before.coats(area, zone).rfind(|coat| coat.stage != Stage::Chip && !is_wiped(coat) && !powder(coat))
}

fn is_wiped(coat: &Coat<'_>) -> bool {
    matches!(coat.cup.family(), Family::Enamel | Family::Oil) && coat.stage.weathers()
}

/// Whether white spirit and rubbing get at a coat: water-based, and neither a clear film nor a hard gloss.
pub(in crate::rules) fn is_open(under: &Coat<'_>, bench: &Bench) -> bool {
    under.cup.family() == Family::Water
        && !under.is_clear_film()
        && under.what != What::Texture
        && under.gloss().0 < bench.get(Figure::GlossAbove)
}
