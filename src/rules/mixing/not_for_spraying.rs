//! Some products must not become a mist: their label or their data sheet says so.

use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "not-for-spraying",
        level: Level::Error,
        about: "a product that says it is not for spraying is not sprayed",
        why: "the label says so because its mist harms whoever breathes it",
        group: Group::Safety,
        safety: true,
    },
    example: "'Gloss' sprays 'Brush Only', which is not for spraying",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    if !look.step.technique.sprays() {
        return;
    }
    for part in look.step.mix.parts.iter().filter(|part| part.paint.not_for_spraying) {
        told.tell(&RULE, look.index, None, || {
            let name = wording::quoted(&part.paint.name);
            let message = format!("{} sprays {name}, which is not for spraying", look.own_title());
            let mend = "brush it on, or use a product that is made to be sprayed";
            let finding = Finding::new(&RULE.check, part.place, message, mend);
            finding.see(part.paint.place, "its entry")
        });
    }
}
