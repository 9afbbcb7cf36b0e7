//! Water and a stiff brush get through a thin coat, and hardly through a thick one.

use super::chipped::chipped;
use crate::bench::Figure;
use crate::film::Coat;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Zone;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "chipping-too-thick",
        level: Level::Warning,
        about: "the colour that is to chip is laid thin",
        why: "water hardly gets through a thick coat to the soluble film, and what lets go comes off in sheets",
        group: Group::Chipping,
        safety: false,
    },
    example: "'Green' and what else lies on 'Boards' is about 34 µm thick: chips come easily up to 20 µm",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let bench = &look.conditions.bench;
    let easily = bench.get(Figure::ChipsUpTo);
    // Nobody knows a film to the micrometre: what may as well be thin enough is left alone.
    let surely = easily * bench.get(Figure::SpreadBrush);
    let over = |area: usize, from: usize| -> f64 {
        let built = |zone: &Zone| -> f64 {
            look.before().layers(area, *zone).filter(|layer| layer.coat.position > from).map(|layer| layer.dry.0).sum()
        };
        Zone::ALL.iter().map(built).fold(0.0, f64::max)
    };
    let thick: Vec<(usize, f64, &Coat<'_>)> = chipped(look)
        .into_iter()
        .filter_map(|(area, chipped)| {
            let thickest = chipped.over.into_iter().max_by(|a, b| a.all_dry().0.total_cmp(&b.all_dry().0))?;
            Some((area, over(area, chipped.resist.position), thickest))
        })
        .filter(|(_, over, _)| *over > surely)
        .collect();
    let Some((_, over, coat)) = thick.iter().max_by(|a, b| a.1.total_cmp(&b.1)) else { return };
    told.tell(&RULE, look.index, Some(coat.step), || {
        let areas = look.area_titles(thick.iter().map(|(area, ..)| *area));
        let title = look.title(coat.step);
        let message = format!(
            "{title} and what else lies on {areas} is about {over:.0} µm thick: chips come easily up to {easily:.0} µm"
        );
        let mend = format!("lay fewer or thinner coats in {title}: two thin ones are enough");
        look.see(
            Finding::new(&RULE.check, look.step.places.stage, message, mend),
            coat.step,
            "the thickest of the coats there",
        )
    });
}
