//! Grit, glue, resin, powder and oil as it comes from the tube don't go through an airbrush.

use crate::guide::Paint;
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Kind, Technique};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "clogs-the-airbrush",
        level: Level::Error,
        about: "paste, glue, resin, powder and oil as it comes from the tube stay out of the airbrush",
        why: "the nozzle is blocked at the first pull, and grit or glue in it is a repair and not a rinse",
        group: Group::Chemistry,
        safety: false,
    },
    example: "'Mud' puts 'Mud', a paste, into an airbrush",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    if look.step.technique != Technique::Airbrush {
        return;
    }
    let thinned = !look.step.mix.unmixed && look.step.mix.parts.iter().any(|part| part.paint.kind == Kind::Thinner);
    let clogging = look.step.mix.parts.iter().find_map(|part| Some((part, clogs(&part.paint, thinned)?)));
    let Some((part, what)) = clogging else { return };
    told.tell(&RULE, look.index, None, || {
        let message =
            format!("{} puts {}, {what}, into an airbrush", look.own_title(), wording::quoted(&part.paint.name));
        let mend = if part.paint.kind == Kind::Oil {
            "thin it until it runs like milk, or brush it on"
        } else {
            "put it on by brush or by hand"
        };
        let finding = Finding::new(&RULE.check, part.place, message, mend);
        finding.see(part.paint.place, "its entry")
    });
}

/// What a product is that no airbrush takes.
fn clogs(paint: &Paint, thinned: bool) -> Option<&'static str> {
    match paint.kind {
        Kind::Texture => Some("a paste"),
        Kind::Glue => Some("a glue"),
        Kind::Resin => Some("a resin"),
        _ if paint.family == Family::Lamp => Some("which hardens in light"),
        Kind::Pigment => Some("a powder"),
        Kind::Oil if !thinned => Some("an oil without thinner"),
        _ => None,
    }
}
