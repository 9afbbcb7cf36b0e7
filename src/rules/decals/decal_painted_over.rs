//! A colour that covers the faces of an area covers the decals on them. What covers the whole area is told by the
//! rule for all fine work.

use crate::bench::{Bench, Figure};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "decal-painted-over",
        level: Level::Warning,
        about: "the faces of an area get no covering colour once a decal lies there",
        why: "the decal is gone, or half of it, and paint that follows its edge shows every slip of the brush",
        group: Group::Decals,
        safety: false,
    },
    example: "'More green' paints over 'Marks' on 'Shell'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let bench = &look.conditions.bench;
    let Some(coat) = look.coat().filter(|coat| covers_faces(coat, bench)) else { return };
    let before = look.before();
    let covered: Vec<(usize, &Coat<'_>)> = look
        .areas()
        .iter()
        .filter_map(|area| {
            let decal = before.decals(*area).next_back()?;
            let gone =
                before.coats(*area, Zone::Faces).any(|over| over.position > decal.position && hides(over, bench));
            (!gone).then_some((*area, decal))
        })
        .collect();
    let Some((_, decal)) = covered.first() else { return };
    told.tell(&RULE, coat.step, Some(decal.step), || {
        let areas = look.area_titles(covered.iter().map(|(area, _)| *area));
        let does = if coat.is_tinted_clear() { "colours" } else { "paints over" };
        let message = format!("{} {does} {} on {areas}", look.own_title(), look.title(decal.step));
        let mend = format!("put it before {}, or keep it off the decal", look.title(decal.step));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, decal.step, "the decal")
    });
}

fn covers_faces(coat: &Coat<'_>, bench: &Bench) -> bool {
    let broad = matches!(coat.technique, Technique::Brush | Technique::Airbrush | Technique::SprayCan);
    let partly = matches!(coat.reach, Reach::Faces | Reach::Raised);
    // A glaze that covers is told by no other rule, and half a coat of a tinted clear turns white letters to its colour.
    let tints = coat.what == What::Tint && (partly || coat.reach == Reach::All) && is_strong(coat, bench);
    broad && !coat.stage.weathers() && (tints || (partly && hides(coat, bench)))
}

fn is_strong(coat: &Coat<'_>, bench: &Bench) -> bool {
    coat.cover >= bench.get(Figure::DecalHiddenFrom)
        || (coat.is_tinted_clear() && coat.all_optical() >= bench.get(Figure::DecalTintedFrom))
}

fn hides(coat: &Coat<'_>, bench: &Bench) -> bool {
    coat.cover >= bench.get(Figure::DecalHiddenFrom) && matches!(coat.what, What::Colour | What::Ground)
}
