//! Water, alcohol and white spirit don't stay mixed: the cup curdles.

use super::thinning::mix;
use crate::guide::MixPart;
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, Stage};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "families-in-one-cup",
        level: Level::Error,
        about: "what is mixed in one cup has carriers that mix",
        why: "the two curdle within minutes: grit on the model, strings in an airbrush, and nothing to save from the cup",
        group: Group::Chemistry,
        safety: false,
    },
    example: "'Brown' mixes 'Red' (water) and 'Tar' (enamel) in one cup",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(main) = look
        .coat()
        .filter(|coat| !matches!(coat.stage, Stage::Prepare | Stage::Assemble) && !look.step.mix.is_beside())
        .and_then(|coat| coat.cup.main)
    else {
        return;
    };
    let parts = &look.step.mix.parts;
    let is_film = |part: &&MixPart| !matches!(part.paint.kind, Kind::Thinner | Kind::Cleaner);
    let Some(strange) = parts.iter().filter(is_film).find(|part| !mix(main.family, part.paint.family)) else { return };
    told.tell(&RULE, look.index, None, || {
        let named = |name: &str, family| format!("{} ({family})", wording::quoted(name));
        let blended = look.step.mix.blend.is_some();
        let (does, place) = if blended { ("blends", "wet in wet") } else { ("mixes", "in one cup") };
        let message = format!(
            "{} {does} {} and {} {place}",
            look.own_title(),
            named(&main.name, main.family),
            named(&strange.paint.name, strange.paint.family)
        );
        let mend = format!(
            "keep to products of the family '{}' {}, or lay {} in a step of its own when this one is dry",
            main.family,
            if blended { "for both" } else { "in this cup" },
            wording::quoted(&strange.paint.name)
        );
        let finding = Finding::new(&RULE.check, strange.place, message, mend);
        let first = parts.iter().find(|part| part.paint.id == main.id);
        first.map_or(finding.clone(), |part| finding.see(part.place, "what it does not mix with"))
    });
}
