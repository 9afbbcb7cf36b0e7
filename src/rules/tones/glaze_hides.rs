//! A glaze of neat paint that hides is a layer, and so is a shade of it over everything: what was to show through is gone.

use crate::bench::{Bench, Figure};
use crate::colour::space::lab_difference;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, Stage, Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "glaze-hides",
        level: Level::Warning,
        about: "a glaze is thin enough to let the work beneath it show",
        why: "paint that covers takes away the shade and light under it, which the glaze was to tint",
        group: Group::Order,
        safety: false,
    },
    example: "'Green glaze' is meant to tint 'Cloth', and 100 % of its mix is paint that hides",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let bench = &look.conditions.bench;
    let Some(coat) = look.coat().filter(|coat| is_too_strong(coat, bench)) else { return };
    let least = bench.get(Figure::AreasDifferFrom);
    let before = look.before();
    let painted = |area: usize| before.coats(area, Zone::Faces).any(|under| under.what != What::Ground);
    let changed = |area: usize| {
        let [was, is] = [look.showed(area, Zone::Faces), look.shows(area, Zone::Faces)];
        was.lab().zip(is.lab()).is_some_and(|(was, is)| lab_difference(was, is) >= least)
    };
    let hidden: Vec<usize> = look.areas().iter().copied().filter(|area| painted(*area) && changed(*area)).collect();
    if hidden.is_empty() {
        return;
    }
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(hidden.iter().copied());
        let share = (coat.cup.coloured * 100.0).round();
        let shades = coat.stage == Stage::Shade;
        let meant = if shades { "shade" } else { "tint" };
        let message =
            format!("{} is meant to {meant} {areas}, and {share} % of its mix is paint that hides", look.own_title());
        let mend = if shades {
            "take a wash, or thin it with water or medium, one part of paint to four or more; or lay it in the recesses alone, \
             with 'where: recesses'"
        } else {
            "thin it with water or medium, one part of paint to four or more; or call it 'stage: layer'"
        };
        Finding::new(&RULE.check, look.step.places.paints, message, mend)
    });
}

/// From this share of paint on nobody can mean a shade to run. Own estimate: one to one is a thin layer, which some draw into
/// the folds and push off the raised parts.
const NEAT_FROM: f64 = 0.6;

/// Whether a glaze is ordinary paint that hides and is hardly thinned, or what is brushed on as a shade is as good as neat.
fn is_too_strong(coat: &Coat<'_>, bench: &Bench) -> bool {
    let ordinary = matches!(coat.cup.kind(), Some(Kind::Paint | Kind::Enamel));
    let hides = 1.0 - coat.cup.uncovered >= bench.get(Figure::CoveringFrom);
    let is_thin = 1.0 - coat.cup.coloured >= bench.get(Figure::ThinFromThinner);
    let is_meant_thin = match coat.stage {
        Stage::Glaze => !is_thin,
        Stage::Shade => coat.technique == Technique::Brush && coat.cup.coloured >= NEAT_FROM,
        _ => false,
    };
    is_meant_thin && coat.is_all_over() && ordinary && hides
}
