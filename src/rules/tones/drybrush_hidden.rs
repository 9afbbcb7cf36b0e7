//! Paint that covers what was drybrushed takes the light off the texture again.

use crate::bench::Figure;
use crate::colour::space::lab_difference;
use crate::film::{Coat, Opacity, Shown, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Stage, Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "drybrush-hidden",
        level: Level::Warning,
        about: "nothing that covers is laid over texture once it has been drybrushed",
        why: "the light on every ridge is gone, and has to be brushed on again",
        group: Group::Order,
        safety: false,
    },
    example: "'Second brown' covers the drybrushing of 'Fur light' on 'Fur'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| covers(coat) || flattens(coat)) else { return };
    let before = look.before();
    let hidden: Vec<(usize, &Coat<'_>)> = look
        .areas()
        .iter()
        .filter_map(|area| {
            let mut worked = [Zone::Faces, Zone::Edges].iter().flat_map(|zone| before.coats(*area, *zone).rev());
            let brushed = worked.find(|coat| is_light(coat))?;
            let gone = before.coats(*area, Zone::Edges).any(|over| over.position > brushed.position && covers(over));
            let lost = !gone && before.mask(*area).is_none() && (covers(coat) || is_flat(look, *area));
            lost.then_some((*area, brushed))
        })
        .collect();
    let Some((_, brushed)) = hidden.first() else { return };
    told.tell(&RULE, coat.step, Some(brushed.step), || {
        let areas = look.area_titles(hidden.iter().map(|(area, _)| *area));
        let title = look.title(brushed.step);
        let message = format!("{} covers the drybrushing of {title} on {areas}", look.own_title());
        let mend = format!("put it before {title}, thin it, or keep it off the ridges");
        let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend);
        look.see(finding, brushed.step, "what it covers")
    });
}

/// Whether a coat hides the ridges, by whatever tool. What goes over all of an area evenly is told by the rule for all
/// fine work; drybrushing again is how light is built up.
fn covers(coat: &Coat<'_>) -> bool {
    let on_ridges = coat.reach.zones().contains(&Zone::Edges) && coat.reach.zones().contains(&Zone::Faces);
    on_ridges
        && !coat.is_all_over()
        && coat.from.is_none()
        && coat.what == What::Colour
        && coat.opacity == Opacity::Opaque
        && coat.technique != Technique::Drybrush
}

/// Whether a coat goes evenly over everything and veils it; what hides it is told by the rule for all fine work.
fn flattens(coat: &Coat<'_>) -> bool {
    coat.is_all_over()
        && coat.what == What::Colour
        && coat.opacity == Opacity::Tinting
        && coat.technique != Technique::Drybrush
}

/// Whether the step leaves little of what the edges of an area stood out by, as predicted.
fn is_flat(look: &Look<'_>, area: usize) -> bool {
    let stands_out = |edges: &Shown, faces: &Shown| Some(lab_difference(edges.lab()?, faces.lab()?));
    let [before, after] = [
        stands_out(look.showed(area, Zone::Edges), look.showed(area, Zone::Faces)),
        stands_out(look.shows(area, Zone::Edges), look.shows(area, Zone::Faces)),
    ];
    let left = look.conditions.bench.get(Figure::LightLeft);
    before.zip(after).is_some_and(|(before, after)| after < before * left)
}

/// Whether a coat is light that was drybrushed on.
fn is_light(coat: &Coat<'_>) -> bool {
    coat.technique == Technique::Drybrush
        && matches!(coat.stage, Stage::Highlight | Stage::Layer)
        && coat.what == What::Colour
}
