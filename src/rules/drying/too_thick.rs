//! Coat over coat fills what the sculptor cut: rivets go soft, and faces lose their eyes.

use crate::bench::{Figure, NAMED_AFTER};
use crate::film::{Coat, View, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "too-thick",
        level: Level::Note,
        about: "all coats together stay thin enough for the detail of the model at its scale",
        why: "fine detail goes soft under thick paint; the thickness is a prediction from bench figures, so look at the model",
        group: Group::Thickness,
        safety: false,
    },
    example: "with 'Green' the paint on 'Shell' gets about 136 µm thick; detail goes soft from 100 µm on",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let (Some(coat), Some(most)) = (look.coat().filter(|coat| is_paint(coat)), most(look)) else { return };
    // Nobody knows a film to the micrometre: what may as well be thin enough is left alone.
    let surely = most * look.conditions.bench.get(Figure::SpreadBrush);
    let thickest = |view: View<'_, '_>, area: usize| -> f64 {
        let built = |zone: &Zone| -> f64 {
            view.layers(area, *zone).filter(|layer| is_paint(layer.coat)).map(|layer| layer.dry.0).sum()
        };
        Zone::ALL.iter().map(built).fold(0.0, f64::max)
    };
    let thick: Vec<(usize, f64)> = look
        .areas()
        .iter()
        .map(|area| (*area, thickest(look.after(), *area)))
        .filter(|(area, after)| *after > surely && thickest(look.before(), *area) <= surely)
        .collect();
    let Some(after) = thick.iter().map(|(_, after)| *after).reduce(f64::max) else { return };
    let on_areas =
        |one: &&Coat<'_>| look.film.areas(one.position).iter().any(|area| thick.iter().any(|(a, _)| a == area));
    let earlier = look.film.coats().iter().filter(|one| one.position <= look.position && is_paint(one));
    let thickest_coat = earlier.filter(on_areas).max_by(|a, b| a.all_dry().0.total_cmp(&b.all_dry().0)).unwrap_or(coat);
    told.tell(&RULE, look.index, Some(thickest_coat.step), || {
        let areas = look.area_titles(thick.iter().map(|(area, _)| *area));
        let message = format!(
            "with {} the paint on {areas} gets about {after:.0} µm thick; detail goes soft from {most:.0} µm on",
            look.own_title()
        );
        let mend = format!("lay fewer or thinner coats, above all in {}", look.title(thickest_coat.step));
        let finding = Finding::new(&RULE.check, look.step.places.coats, message, mend);
        look.see(finding, thickest_coat.step, "the thickest of the coats there")
    });
}

/// How thick the paint may get on a model; `None`: it does not say how large it is. On smaller scales detail is cut
/// coarser than to scale, so they take as much.
fn most(look: &Look<'_>) -> Option<f64> {
    let (model, bench) = (&look.scheme.model, &look.conditions.bench);
    let height = bench.named_height(model.scale?);
    let large = model.surface.is_some_and(|surface| surface.0 > bench.get(Figure::ThickLarge));
    let takes = if large { bench.get(Figure::ThickLargeTakes) } else { 1.0 };
    Some(bench.get(Figure::ThickFrom) * takes * (height / NAMED_AFTER).max(1.0))
}

/// Whether a coat is meant to be thin; paste, filler and resin are not.
fn is_paint(coat: &Coat<'_>) -> bool {
    !matches!(coat.what, What::Texture | What::Filler | What::Powder) && coat.cup.kind() != Some(Kind::Resin)
}
