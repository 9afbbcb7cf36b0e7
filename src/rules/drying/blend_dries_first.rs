//! Two paints that are to run into each other dry before they are blended.

use crate::bench::{Figure, Minutes};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look;
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "blend-dries-first",
        level: Level::Note,
        about: "paint that is blended wet in wet stays wet for as long as the step takes on one model",
        why: "the first edge is dry before the second colour meets it: it tears, and dries with a hard line",
        group: Group::Drying,
        safety: false,
    },
    example: "'Dusk on the cloak' takes 20 min on a model, and its paints stay wet together for about 7 min",
    ordering: false,
    look: judge,
};

fn judge(look: &Look<'_>, told: &mut Told) {
    let Some((coat, open)) = look.coat().and_then(|coat| Some((coat, coat.open?))) else { return };
    // What nobody wrote is not held against anybody.
    let Some(minutes) = look.step.minutes.map(|minutes| Minutes(minutes.as_f64())) else { return };
    if minutes.0 <= open.times(look.conditions.bench.get(Figure::BlendForgiven)).0 {
        return;
    }
    told.tell(&RULE, coat.step, None, || {
        let message = format!(
            "{} takes {} on a model, and its paints stay wet together for about {}",
            look.own_title(),
            look::rested(minutes),
            look::rested(open.to_be_written())
        );
        let mend = "blend fold by fold, each while it is wet, mix a medium in that slows them, or glaze instead";
        Finding::new(&RULE.check, look.step.places.minutes, message, mend)
    });
}
