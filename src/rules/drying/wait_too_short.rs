//! The second coat of a step tears the first one open while it is half dry.

use crate::bench::{Figure, Minutes};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Technique};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "wait-too-short",
        level: Level::Warning,
        about: "the wait between the coats of a step is as long as its paint needs",
        why: "the brush drags the first coat up in blotches; a spray on a wet film runs and shuts its solvent in",
        group: Group::Drying,
        safety: false,
    },
    example: "'Red' waits 10 min between its coats",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let several = |coat: &&Coat<'_>| {
        look.step.coats > 1 && !matches!(coat.what, What::Powder | What::Fixer | What::Texture | What::Filler)
    };
    let Some(coat) = look.coat().filter(several) else { return };
    let Some(wait) = look.step.wait.map(Minutes::from).filter(|wait| !is_blending(coat, *wait)) else { return };
    let least = least(look, coat);
    if wait.0 >= look.nearly(coat, least).0 {
        return;
    }
    told.tell(&RULE, look.index, None, || {
        let message = format!("{} waits {} between its coats", look.own_title(), rested(wait));
        let mend = format!(
            "give each coat what it needs: 'wait: {}'{}",
            needed(if gentle(coat) { least } else { coat.drying.recoat }),
            look.by_room(coat)
        );
        let finding = Finding::new(&RULE.check, look.step.places.wait, message, mend);
        match coat.cup.main {
            Some(paint) => finding.see(paint.place, "the paint that needs longer"),
            None => finding,
        }
    });
}

/// A spray or a nearly dry tool does not drag: for them it is enough that the film can be touched. For a wet brush it is
/// what the label says, or half of what is usual for the family.
fn least(look: &Look<'_>, coat: &Coat<'_>) -> Minutes {
    if gentle(coat) {
        return coat.drying.touch;
    }
    let share = if coat.drying.labelled { 1.0 } else { look.conditions.bench.get(Figure::SurelyTooShort) };
    coat.drying.recoat.times(share)
}

fn gentle(coat: &Coat<'_>) -> bool {
    coat.technique.sprays() || matches!(coat.technique, Technique::Drybrush | Technique::Sponge | Technique::Stipple)
}

/// Oil and enamel that get no wait at all are meant to be worked wet.
fn is_blending(coat: &Coat<'_>, wait: Minutes) -> bool {
    wait.0 <= 0.0 && matches!(coat.cup.family(), Family::Oil | Family::Enamel)
}
