//! Dirt that covers everything leaves nothing of the paint beneath it.

use crate::bench::Figure;
use crate::colour::space::{lab, lab_difference, linear};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "colours-buried",
        level: Level::Warning,
        about: "weathering and powder leave something of an area's colours to see",
        why: "the work of every step before is gone under one colour of dirt",
        group: Group::Washes,
        safety: false,
    },
    example: "'Mud everywhere' hides every colour of 'Hull'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat() else { return };
    let buried: Vec<usize> = look.areas().iter().copied().filter(|area| buries_colours(look, coat, *area)).collect();
    if buried.is_empty() {
        return;
    }
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(buried.iter().copied());
        let message = format!("{} hides every colour of {areas}", look.own_title());
        let mend = "thin it, or lay it where dirt gathers: 'where: recesses', 'where: spots', or a part of the area";
        Finding::new(&RULE.check, look.step.places.paints, message, mend)
    });
}

/// Whether a coat is dirt that leaves nothing to see of an area's colours.
pub(in crate::rules) fn buries_colours(look: &Look<'_>, coat: &Coat<'_>, area: usize) -> bool {
    let thin = coat.stage == Stage::Glaze && !coat.is_tinted_clear();
    let dirt = thin || matches!(coat.stage, Stage::Weather | Stage::Pigment | Stage::PanelWash | Stage::Shade);
    // What a mask keeps is not buried.
    let whole = !look.film.is_beside_mask(look.position, area);
    dirt && whole && coat.is_all_over() && coat.cover > 0.0 && is_buried(look, coat, area)
}

/// Whether the zones of an area, which differed before, can't be told from each other, or hardly from the dirt.
fn is_buried(look: &Look<'_>, coat: &Coat<'_>, area: usize) -> bool {
    let bench = &look.conditions.bench;
    let painted = Zone::ALL.iter().any(|zone| {
        look.before()
            .coats(area, *zone)
            .any(|under| matches!(under.what, What::Colour | What::Tint) && under.step != coat.step)
    });
    let bare = 1.0 - coat.cover.min(1.0);
    let gone =
        Zone::ALL.iter().all(|zone| 1.0 - bare.powf(coat.share_in(*zone, bench)) >= bench.get(Figure::BuriedFrom));
    // What goes over everything and covers is no fleck: it is held against what was there by its own colour.
    let apart = || {
        let before = look.showed(area, Zone::Faces).lab()?;
        Some(lab_difference(before, lab(linear(look.appearance().own_colour(coat.position)?))))
    };
    painted && gone && apart().is_none_or(|by| by >= bench.get(Figure::AreasDifferFrom))
}
