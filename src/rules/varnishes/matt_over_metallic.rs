//! A matt varnish takes from metal what makes it metal.
//!
//! An area that is made to shine again in any place is left alone: worn iron is dull on its faces and bright only on
//! its edges.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "matt-over-metallic",
        level: Level::Warning,
        about: "metal that should shine gets no matt varnish, or is made to shine again afterwards",
        why: "the rough surface of a matt varnish scatters the light, and metal turns into grey plastic",
        group: Group::Varnish,
        safety: false,
    },
    example: "'Matt' lays matt varnish on the metal of 'Blade'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let bench = &look.conditions.bench;
    let matt = |coat: &Coat<'_>| coat.gloss().0 < bench.get(Figure::MattBelow);
    let Some(coat) = look.coat().filter(|coat| coat.what == What::Varnish && matt(coat)) else { return };
    let (before, finished) = (look.before(), look.film.finished());
    let dulled = look.on_zones(|area, zone| {
        let metal = before.metal(area, zone, bench).filter(|metal| !is_aged(look, area, metal))?;
        let zones = Zone::ALL.iter().flat_map(|zone| finished.coats(area, *zone));
        let mut later = zones.chain(finished.spots(area));
        let shines = later
            .any(|other| other.position > coat.position && (other.is_clear_film() || other.metallic()) && !matt(other));
        (!shines).then_some(metal)
    });
    let Some((_, metal)) = dulled.first() else { return };
    told.tell_with_own_mend(&RULE, coat.step, Some(metal.step), || {
        let areas = look.area_titles(dulled.iter().map(|(area, _)| *area));
        let message = format!("{} lays matt varnish on the metal of {areas}", look.own_title());
        let mend = format!("leave {areas} out or mask it, or brush a gloss or satin varnish on it afterwards");
        let finding = Finding::new(&RULE.check, look.step.places.areas, message, mend).at(level(look, &dulled));
        look.see(finding, metal.step, "the metal")
    });
}

/// Tools and spears among much else are matted with it on purpose; a blade that is much of a model, or metal under a
/// tinted clear, is not.
fn level(look: &Look<'_>, dulled: &[(usize, &Coat<'_>)]) -> Level {
    let share = |(area, _): &(usize, &Coat<'_>)| Some(look.scheme.areas.get(*area)?.share?.as_fraction().as_f64());
    let shares = dulled.iter().map(share).sum::<Option<f64>>();
    let is_small = shares.is_some_and(|shares| shares < look.conditions.bench.get(Figure::MetalMattedBelow));
    let is_candy = |(area, metal): &(usize, &Coat<'_>)| {
        let mut over = Zone::ALL.iter().flat_map(|zone| look.before().coats(*area, *zone));
        over.any(|coat| coat.position > metal.position && coat.is_tinted_clear())
    };
    if is_small && !dulled.iter().any(is_candy) { Level::Note } else { RULE.check.level }
}

/// Whether rust or dirt was laid on metal on purpose: it is not to shine any more. Rust in its hollows leaves it shining.
fn is_aged(look: &Look<'_>, area: usize, metal: &Coat<'_>) -> bool {
    let before = look.before();
    let zones = Zone::ALL.iter().flat_map(|zone| before.coats(area, *zone));
    let dirt = |coat: &Coat<'_>| matches!(coat.stage, Stage::Weather | Stage::Pigment) && !coat.metallic();
    let aged = |coat: &Coat<'_>| dirt(coat) && coat.reach != Reach::Recesses;
    zones.chain(before.spots(area)).any(|coat| coat.position > metal.position && aged(coat))
}
