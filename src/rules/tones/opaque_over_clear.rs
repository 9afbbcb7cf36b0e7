//! A tinted clear over metal is finished when its last coat is on: opaque paint over it has no glow.

use crate::bench::{Bench, Figure};
use crate::film::{Coat, Opacity, View, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Hiding, Reach, Stage, Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "opaque-over-clear",
        level: Level::Error,
        about: "metal is shaded and its edges are drawn before the tinted clear goes over it",
        why: "opaque paint on top of a tinted clear lies there like chalk: the clear can neither tint it nor light it",
        group: Group::Metal,
        safety: false,
    },
    example: "'Edges' lies opaque on the finished clear of 'Shell'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| lies_like_chalk(coat, &look.conditions.bench)) else { return };
    let before = look.before();
    let finished = look.film.finished();
    // Edges that are drawn between the shading and the colour are tinted and lit with all the rest.
    let tinted =
        |area, zone| finished.coats(area, zone).any(|other| other.position > coat.position && other.is_tinted_clear());
    let over = look.on_zones(|area, zone| clear_over_metal(before, area, zone).filter(|_| !tinted(area, zone)));
    let Some((_, clear)) = over.first() else { return };
    told.tell(&RULE, coat.step, Some(clear.step), || {
        let areas = look.area_titles(over.iter().map(|(area, _)| *area));
        let message = format!("{} lies opaque on the finished clear of {areas}", look.own_title());
        let mend = format!("put it before {}, or use a tinted clear for it", look.title(clear.step));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, clear.step, "the clear")
    });
}

fn lies_like_chalk(coat: &Coat<'_>, bench: &Bench) -> bool {
    let stage = matches!(
        coat.stage,
        Stage::Undercoat | Stage::Preshade | Stage::Basecoat | Stage::Layer | Stage::Highlight | Stage::Shade
    );
    let drawn = coat.technique == Technique::Drybrush || coat.stage == Stage::Highlight;
    let hides = coat.opacity >= Opacity::Covering
        || (drawn
            && coat.cup.coloured >= bench.get(Figure::DrawnFrom)
            && coat.cup.main.is_some_and(|paint| matches!(paint.hiding, Hiding::Opaque | Hiding::SemiOpaque)));
    stage && hides && coat.reach != Reach::Spots && matches!(coat.what, What::Ground | What::Colour)
}

/// The tinted clear that shows in a zone, where it lies over metal.
fn clear_over_metal<'a>(view: View<'a, 'a>, area: usize, zone: Zone) -> Option<&'a Coat<'a>> {
    let shows = |coat: &&Coat<'_>| coat.is_tinted_clear() || coat.opacity >= Opacity::Covering;
    let clear = view.coats(area, zone).rfind(shows).filter(|coat| coat.is_tinted_clear())?;
    let below = view.coats(area, zone).rfind(|coat| !coat.is_clear_film() && coat.position < clear.position);
    below.filter(|coat| coat.metallic()).map(|_| clear)
}
