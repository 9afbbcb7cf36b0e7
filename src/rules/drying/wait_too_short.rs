//! The second coat of a step tears the first one open while it is half dry.

use crate::bench::{Figure, Minutes};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::Technique;

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
    if wait >= least(look, coat) {
        return;
    }
    told.tell(&RULE, look.index, None, || {
        let message = format!("{} waits {} between its coats", look.own_title(), rested(wait));
        let mend =
            format!("give each coat what it needs: 'wait: {}'{}", needed(coat.drying.between), look.by_room(coat));
        let level = if look.is_short(wait, touch(look, coat)) { RULE.check.level } else { Level::Note };
        let finding = Finding::new(&RULE.check, look.step.places.wait, message, mend).at(level);
        match look.slowest(coat) {
            Some(place) => finding.see(place, "what needs longer"),
            None => finding,
        }
    });
}

/// Mists from an airbrush follow each other in minutes, coats from a can in a few more; a nearly dry tool does not drag.
/// For a wet brush it is what the label says, or half of what is usual for the family.
fn least(look: &Look<'_>, coat: &Coat<'_>) -> Minutes {
    let bench = &look.conditions.bench;
    let usual = bench.get(Figure::SurelyTooShort);
    match coat.technique {
        Technique::Airbrush => look.least_mist(coat),
        Technique::SprayCan => {
            let least = Minutes(bench.get(Figure::CanLeast)).min(coat.drying.recoat);
            least.times(1.0 - bench.get(Figure::ShortfallForgiven))
        }
        technique if technique.is_gentle() => coat.drying.touch.times(usual),
        _ => look.least_recoat(coat),
    }
}

/// When a coat can be touched, from when on a careful brush no longer drags it up: half of what a label asks for before the
/// next coat, where nothing says more.
fn touch(look: &Look<'_>, coat: &Coat<'_>) -> Minutes {
    let drying = coat.drying;
    let half = drying.recoat.times(look.conditions.bench.get(Figure::SurelyTooShort));
    if drying.touch < drying.recoat { drying.touch } else { half }
}

/// Coats that get no wait at all are meant to be worked into one another while they are wet.
fn is_blending(coat: &Coat<'_>, wait: Minutes) -> bool {
    wait.0 <= 0.0 && !coat.technique.sprays()
}
