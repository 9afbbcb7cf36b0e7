//! A tinted clear gets deeper with every coat: models that are done on different days become different colours.

use crate::film::Coat;
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "clear-coats-together",
        level: Level::Note,
        about: "the coats of a tinted clear over metal are laid on all models of an army in one go",
        why: "each coat deepens the tone, and neither the mist nor the mix is the same on another day: the unit comes out in two colours",
        group: Group::Metal,
        safety: false,
    },
    example: "'Amber' lays 4 clear coats over the metal of 'Shell' on 12 models, not all in one go",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let deepens = |coat: &&Coat<'_>| coat.is_tinted_clear() && look.step.coats > 1 && !look.step.together;
    let Some(coat) = look.coat().filter(deepens) else { return };
    let models = look.around.models;
    if models < 2 {
        return;
    }
    let before = look.before();
    let over = look.on_zones(|area, zone| before.metal(area, zone, &look.conditions.bench));
    let Some((_, metal)) = over.first() else { return };
    told.tell(&RULE, coat.step, Some(metal.step), || {
        let areas = look.area_titles(over.iter().map(|(area, _)| *area));
        let (coats, models) = (look.step.coats, wording::counted(models, "model", "models"));
        let message = format!(
            "{} lays {coats} clear coats over the metal of {areas} on {models}, not all in one go",
            look.own_title()
        );
        let mend = "write 'together: true', and spray all of them in one session from one mix";
        let finding = Finding::new(&RULE.check, look.step.places.coats, message, mend);
        look.see(finding, metal.step, "the metal")
    });
}
