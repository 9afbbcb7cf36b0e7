//! Oil and enamel washes are rubbed and wiped in white spirit; paint without a clear coat comes along.

use crate::bench::{Bench, Figure};
use crate::film::{Coat, Reason, View, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::drying::young::young;
use crate::rules::ground::solvent_on_foam::is_foam;
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Kind, Reach, Stage, Technique, Zone};

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
    if tell_young(look, coat, told) {
        return;
    }
    let before = look.before();
    let bench = &look.conditions.bench;
    if is_painted_oil(coat, bench) {
        return;
    }
    let unsealed = look.on_zones(|area, zone| {
        beneath(before, area, zone).filter(|under| is_open(under, bench) && !cannot_run(coat, under, bench))
    });
    let Some((_, under)) = unsealed.first() else { return };
    if matches!(coat.what, What::Fixer | What::Powder) {
        return tell_fixer(look, coat, under, &unsealed, told);
    }
    told.tell_with_own_mend(&RULE, coat.step, Some(under.step), || {
        let areas = look.area_titles(unsealed.iter().map(|(area, _)| *area));
        let message =
            format!("{} goes on {areas} in white spirit, and nothing seals the paint there", look.own_title());
        let kind = if is_foam(look) { "water-based gloss" } else { "gloss" };
        let mend = format!("add a {kind} or satin varnish on {areas} before this");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend).at(Level::Note);
        look.see(finding, under.step, "the open paint")
    });
}

/// Tells of fixer on open paint, poured through powder or laid with it: the powder wants a matt ground, and that is its seal.
fn tell_fixer(look: &Look<'_>, coat: &Coat<'_>, under: &Coat<'_>, unsealed: &[(usize, &Coat<'_>)], told: &mut Told) {
    told.tell_with_own_mend(&RULE, coat.step, Some(under.step), || {
        let areas = look.area_titles(unsealed.iter().map(|(area, _)| *area));
        let runs = if coat.what == What::Fixer {
            "runs in white spirit through powder onto"
        } else {
            "is laid in white spirit on"
        };
        let message = format!("{} {runs} {areas}, where nothing seals the paint", look.own_title());
        let mend = format!("lay a matt varnish on {areas} before the powder: it grips there, and the paint is safe");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend).at(Level::Note);
        look.see(finding, under.step, "the open paint")
    });
}

/// Tells of a film that has not hardened, sealed or not, where an author wrote how long it gets.
fn tell_young(look: &Look<'_>, coat: &Coat<'_>, told: &mut Told) -> bool {
    let share = look.conditions.bench.get(Figure::SolventSafeShare);
    let young = young(look, |under, need, age| {
        let short = need.reason == Reason::Spirit && look.is_short(age, under.drying.safe.times(share));
        short.then_some(RULE.check.level)
    });
    let Some(young) = young else { return false };
    told.tell_with_own_mend(&RULE, young.step, Some(coat.step), || {
        let age = rested(young.age);
        let message = format!("{} goes on {} {age} after it was laid", look.own_title(), look.title(young.under.step));
        let mend = format!("let it dry longer: 'dry: {}'", needed(young.need.time));
        let finding = Finding::new(&RULE.check, look.step_at(young.step).places.dry, message, mend);
        look.see(finding, coat.step, "the white spirit")
    });
    true
}

/// Whether it is oil that is painted and blended, not a wash that is wiped off.
fn is_painted_oil(coat: &Coat<'_>, bench: &Bench) -> bool {
    let thin = coat.cup.thinner >= bench.get(Figure::ThinFromThinner);
    coat.cup.family() == Family::Oil && coat.stage == Stage::Shade && !thin
}

/// Whether a panel wash can't run there, which another rule tells: what helps is the same.
fn cannot_run(coat: &Coat<'_>, under: &Coat<'_>, bench: &Bench) -> bool {
    coat.stage == Stage::PanelWash && under.gloss().0 < bench.get(Figure::PinWashGloss)
}

/// What the wash lies on as a surface: chips and drybrushing are specks on it, and what lies beneath them could be rubbed.
fn beneath<'a>(before: View<'a, 'a>, area: usize, zone: Zone) -> Option<&'a Coat<'a>> {
    let top = before.beneath_weathering(area, zone)?;
    let rubbed = |coat: &Coat<'_>| coat.stage.weathers() && matches!(coat.reach, Reach::Edges | Reach::Spots);
    let speck = |coat: &Coat<'_>| coat.stage == Stage::Chip || coat.technique == Technique::Drybrush || rubbed(coat);
    if !speck(top) {
        return Some(top);
    }
    let powder = |coat: &Coat<'_>| matches!(coat.what, What::Powder | What::Fixer);
    before.coats(area, zone).rfind(|coat| !speck(coat) && !is_wiped(coat) && !powder(coat))
}

/// Whether a coat is a wash or weathering in oil or enamel, which is wiped in white spirit: no varnish that shades is.
pub(in crate::rules) fn is_wiped(coat: &Coat<'_>) -> bool {
    let shades = coat.stage == Stage::Shade && coat.cup.kind() == Some(Kind::Varnish);
    matches!(coat.carrier(), Family::Enamel | Family::Oil) && coat.stage.weathers() && !shades
}

/// Whether white spirit and rubbing get at a coat: water-based, and neither a clear film nor a hard gloss.
fn is_open(under: &Coat<'_>, bench: &Bench) -> bool {
    under.cup.family() == Family::Water
        && !under.is_clear_film()
        && under.what != What::Texture
        && under.gloss().0 < bench.get(Figure::GlossAbove)
}
