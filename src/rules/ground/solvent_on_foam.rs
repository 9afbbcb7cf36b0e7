//! Strong solvents and the propellant of cans melt polystyrene foam within a minute.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::guide::MixPart;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Kind, Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "solvent-on-foam",
        level: Level::Error,
        about: "polystyrene foam is closed with a water-based coat before anything with a solvent comes near it",
        why: "solvent and propellant eat holes into open foam, and no paint fills them again",
        group: Group::Surface,
        safety: false,
    },
    example: "the solvent of 'Black mist' melts the open foam of 'Stones' and 'Planks'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    if !is_foam(look) {
        return;
    }
    let before = look.before();
    let Some(coat) = look.coat().filter(|coat| melts(coat)) else { return tell_glue(look, told) };
    if tell_pinholes(look, coat, told) {
        return;
    }
    let is_open = |area, zone: Zone| !before.coats(area, zone).any(closes);
    let open = look.on_zones(|area, zone| is_open(area, zone).then_some(()));
    let Some((first, ())) = open.first() else { return };
    let later = look.film.coats().iter().find(|other| {
        other.position > coat.position && closes(other) && look.film.areas(other.position).contains(first)
    });
    told.tell_with_own_mend(&RULE, coat.step, later.map(|seal| seal.step), || {
        let areas = look.area_titles(open.iter().map(|(area, ())| *area));
        let message = format!("the solvent of {} melts the open foam of {areas}", look.own_title());
        let mend = format!("close {areas} with a water-based coat before this, or use a water-based product here");
        let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend);
        match later {
            Some(seal) => look.see(finding, seal.step, "the coat that could close it comes only here"),
            None => finding,
        }
    });
}

/// Tells of open foam that is glued with what eats it.
fn tell_glue(look: &Look<'_>, told: &mut Told) {
    let eats = |part: &&MixPart| part.paint.kind == Kind::Glue && HARSH.contains(&part.paint.family);
    let Some(glue) = look.step.mix.parts.iter().find(eats) else { return };
    let before = look.before();
    let open = look.on_zones(|area, zone| (!before.coats(area, zone).any(closes)).then_some(()));
    if open.is_empty() {
        return;
    }
    told.tell_with_own_mend(&RULE, look.index, None, || {
        let areas = look.area_titles(open.iter().map(|(area, ())| *area));
        let message = format!("the glue of {} melts the open foam of {areas}", look.own_title());
        let mend = "glue it with white glue, or with one that is made for foam";
        Finding::new(&RULE.check, glue.place, message, mend)
    });
}

/// Families that dissolve polystyrene.
const HARSH: &[Family] = &[Family::Lacquer, Family::TwoPack, Family::Enamel];

/// Tells of foam that is closed by one mist or by one thinned coat: pinholes stay open in it.
fn tell_pinholes(look: &Look<'_>, coat: &Coat<'_>, told: &mut Told) -> bool {
    let thin_from = look.conditions.bench.get(Figure::ThinFromThinner);
    let is_thin = |coat: &Coat<'_>| coat.technique == Technique::Airbrush || coat.cup.thinner >= thin_from;
    let before = look.before();
    let loose = look.on_zones(|area, zone| {
        let mut closing = before.coats(area, zone).filter(|coat| closes(coat));
        let first = closing.next()?;
        (is_thin(first) && first.count < 2 && closing.next().is_none()).then_some(first)
    });
    let open = look.on_zones(|area, zone| (!before.coats(area, zone).any(closes)).then_some(()));
    let Some((_, seal)) = loose.first().filter(|_| open.is_empty()) else { return false };
    told.tell_with_own_mend(&RULE, coat.step, Some(seal.step), || {
        let areas = look.area_titles(loose.iter().map(|(area, _)| *area));
        let message =
            format!("one thin coat leaves pinholes in the foam of {areas} for the solvent of {}", look.own_title());
        let mend = "brush on two full coats first, undersides too, and try the spray on an offcut".to_owned();
        let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend).at(Level::Warning);
        look.see(finding, seal.step, "the one coat")
    });
    true
}

/// Whether the model is of a foam that solvents dissolve.
pub(in crate::rules) fn is_foam(look: &Look<'_>) -> bool {
    look.materials().are_foam(look.scheme.model.kind)
}

fn melts(coat: &Coat<'_>) -> bool {
    if coat.is_solvent_free() && coat.cup.kind() == Some(Kind::Resin) {
        return false;
    }
    let in_a_can = coat.technique == Technique::SprayCan && coat.cup.family().is_solvent();
    in_a_can || HARSH.iter().any(|family| coat.cup.families.contains(*family))
}

/// Whether a coat keeps solvent off what lies beneath. A filler in gaps and a wash do not.
fn closes(coat: &Coat<'_>) -> bool {
    coat.cup.family() == Family::Water
        && !melts(coat)
        && !matches!(coat.technique, Technique::Drybrush | Technique::Sponge | Technique::Stipple)
        && matches!(coat.what, What::Ground | What::Colour | What::Varnish | What::Texture)
}
