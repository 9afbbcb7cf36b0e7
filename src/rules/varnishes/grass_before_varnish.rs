//! Varnish, ground or colour that is sprayed over grass glues its blades together and takes their colour.

use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Stage, Technique, plantings};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "grass-before-varnish",
        level: Level::Warning,
        about: "grass, tufts and leaves come when the last varnish has been sprayed",
        why: "the blades stick together, turn grey with matt varnish, and look like felt",
        group: Group::Varnish,
        safety: false,
    },
    example: "'Matt' is sprayed when the grass of 'Tufts' is already on",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| sprays_over(look, coat) || paints_over(coat)) else { return };
    let planted = (0..look.position).find_map(|at| {
        let step = look.film.step(at)?;
        let areas = look.film.areas(at);
        let meets = if areas.is_empty() {
            look.step.all_over && coat.technique.sprays()
        } else {
            areas.iter().any(|area| look.areas().contains(area) && look.before().mask(*area).is_none())
        };
        (step.stage == Stage::Basing && meets && plants(step)).then(|| look.film.turn(at).map(|turn| turn.step))?
    });
    let Some(planted) = planted else { return };
    told.tell(&RULE, coat.step, Some(planted), || {
        let title = look.title(planted);
        let sprayed = coat.technique.sprays();
        let (does, level) = if sprayed { ("sprayed", RULE.check.level) } else { ("brushed on", Level::Note) };
        let message = format!("{} is {does} when the grass of {title} is already on", look.own_title());
        let mend = format!("put it before {title}, or {} the grass", if sprayed { "mask" } else { "paint round" });
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend).at(level);
        look.see(finding, planted, "the grass")
    });
}

/// Whether a varnish is sprayed, or a ground or a colour over all of the model; dust and the like may go on grass too.
fn sprays_over(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    let paint = matches!(coat.what, What::Ground | What::Colour) && !coat.stage.weathers();
    let over_all = look.step.all_over && paint && coat.is_all_over();
    coat.technique.sprays() && (coat.what == What::Varnish || over_all)
}

/// Whether a brush lays paint or varnish all over its areas.
fn paints_over(coat: &Coat<'_>) -> bool {
    let film = matches!(coat.what, What::Ground | What::Colour | What::Varnish);
    film && coat.technique == Technique::Brush && coat.is_all_over()
}

fn plants(step: &crate::guide::Step) -> bool {
    let tools = step.tools.iter().map(|tool| tool.name.as_str());
    !plantings(tools.chain([step.title.as_str(), step.stem.as_str()])).is_empty()
}
