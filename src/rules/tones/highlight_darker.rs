//! A highlight that is darker than what it lies on is a shadow in the wrong place.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "highlight-darker",
        level: Level::Warning,
        about: "a highlight is lighter than what it lies on",
        why: "light comes from above, and a dark rim makes the form look hollow",
        group: Group::Order,
        safety: false,
    },
    example: "'Edges' is darker on 'Cloth' than what it lies on: by prediction it takes away 44 of its lightness",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| is_highlight(coat)) else { return };
    let limit = look.conditions.bench.get(Figure::DarkerFrom);
    let darker: Vec<(usize, f64)> = look
        .areas()
        .iter()
        .filter_map(|area| Some((*area, darkens(look, *area)?)))
        .filter(|(_, by)| *by >= limit)
        .collect();
    let Some(most) = darker.iter().map(|(_, by)| *by).reduce(f64::max) else { return };
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(darker.iter().map(|(area, _)| *area));
        let message = format!(
            "{} is darker on {areas} than what it lies on: by prediction it takes away {most:.0} of its lightness",
            look.own_title()
        );
        let mend = "take a lighter colour; if it is meant as a shadow, make it 'stage: shade' or 'stage: layer'";
        Finding::new(&RULE.check, look.step.places.paints, message, mend)
    });
}

/// Metal is judged by its glint, which no lightness tells.
fn is_highlight(coat: &Coat<'_>) -> bool {
    coat.stage == Stage::Highlight
        && coat.what == What::Colour
        && !coat.metallic()
        && !matches!(coat.reach, Reach::Spots | Reach::Recesses)
}

/// By how much it darkens an area where it darkens it least; `None` where a colour is unknown or metal lies there.
fn darkens(look: &Look<'_>, area: usize) -> Option<f64> {
    let by = look.zones().iter().map(|zone| {
        // On a bare ground or a preshade it is a colour, and no light.
        let colour = |seen: &&Coat<'_>| !seen.metallic() && seen.what != What::Ground && seen.stage != Stage::Preshade;
        look.before().seen(area, *zone).filter(colour)?;
        let before = look.showed(area, *zone).lab()?;
        Some(before.l - look.shows(area, *zone).lab()?.l)
    });
    by.collect::<Option<Vec<f64>>>()?.into_iter().reduce(f64::min)
}
