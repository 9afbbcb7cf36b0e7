//! Varnish that is sprayed over grass glues its blades together and takes their colour.

use crate::film::What;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Stage, plantings};

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
    let sprayed = look.coat().filter(|coat| coat.what == What::Varnish && coat.technique.sprays());
    let Some(coat) = sprayed else { return };
    let planted = (0..look.position).find_map(|at| {
        let step = look.film.step(at)?;
        let areas = look.film.areas(at);
        let meets = if areas.is_empty() {
            look.step.all_over
        } else {
            areas.iter().any(|area| look.areas().contains(area) && look.before().mask(*area).is_none())
        };
        (step.stage == Stage::Basing && meets && plants(step)).then(|| look.film.turn(at).map(|turn| turn.step))?
    });
    let Some(planted) = planted else { return };
    told.tell(&RULE, coat.step, Some(planted), || {
        let title = look.title(planted);
        let message = format!("{} is sprayed when the grass of {title} is already on", look.own_title());
        let mend = format!("put it before {title}, or mask the grass");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, planted, "the grass")
    });
}

fn plants(step: &crate::guide::Step) -> bool {
    let tools = step.tools.iter().map(|tool| tool.name.as_str());
    !plantings(tools.chain([step.title.as_str(), step.stem.as_str()])).is_empty()
}
