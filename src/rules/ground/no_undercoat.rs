//! Paint on bare material: water-based paint has nothing to grip on smooth plastic, resin or metal.
//! An undercoat that comes too late is told by the rule for that.

use crate::film::{Coat, View, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "no-undercoat",
        level: Level::Error,
        about: "bare plastic, resin or metal gets an undercoat before any water-based paint",
        why: "a water-based film hardly grips a smooth surface; it comes off with tape, a fingernail, or the next handling",
        group: Group::Surface,
        safety: false,
    },
    example: "'Red cloth' paints 'Cloth' without an undercoat",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| needs_grip(coat)) else { return };
    let before = look.before();
    let is_bare = |area: &usize| Zone::ALL.iter().all(|zone| is_bare(before, *area, *zone));
    let finished = look.film.finished();
    let undercoats = |coat: &Coat<'_>| coat.stage == Stage::Undercoat && coat.is_all_over();
    let comes_later = |area: &usize| finished.coats(*area, Zone::Faces).any(undercoats);
    // What a brush puts on a mask is told by the rule for that.
    let masked = |area: &usize| !coat.technique.sprays() && before.mask(*area).is_some();
    let bare = || look.areas().iter().copied().filter(|area| is_bare(area) && !comes_later(area) && !masked(area));
    if bare().next().is_none() || absorbs(look) {
        return;
    }
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(bare());
        let message = format!("{} paints {areas} without an undercoat", look.own_title());
        let mend = format!("add an undercoat on {areas} before this");
        Finding::new(&RULE.check, look.step.places.stage, message, mend)
    });
}

/// Whether nothing lies in a zone that paint grips on, or only what came from one side: from two sides together most of it
/// is reached. Clear coats and thin washes of another family are no ground.
fn is_bare(before: View<'_, '_>, area: usize, zone: Zone) -> bool {
    let grips = |coat: &&Coat<'_>| coat.what != What::Varnish && (coat.what != What::Shade || needs_grip(coat));
    let mut sides = before.coats(area, zone).filter(grips).map(|coat| coat.from);
    let Some(first) = sides.next() else { return true };
    first.is_some() && sides.all(|from| from == first)
}

/// Whether a coat comes off a smooth surface that has no undercoat. Clear parts that are only varnished are left alone:
/// nothing but the varnish lies on their glass.
fn needs_grip(coat: &Coat<'_>) -> bool {
    coat.cup.family() == Family::Water && matches!(coat.what, What::Colour | What::Shade | What::Tint)
}

/// Whether the model is of a material that holds paint by itself.
fn absorbs(look: &Look<'_>) -> bool {
    let materials = look.materials();
    materials.drink() || materials.are_foam(look.scheme.model.kind)
}
