//! Rules that a step breaks on purpose: `waive` silences a rule on its step, and must have something to silence.

use super::told::Fault;
use crate::caution::CautionKind;
use crate::guide::{Scheme, Waiver};
use crate::report::{Check, Finding, Group, Level, Registry, wording};
use crate::rules::book::RULES;

/// A waiver waives something.
pub(in crate::rules) static IDLE_WAIVER: Check = Check {
    id: "idle-waiver",
    level: Level::Warning,
    about: "every waiver silences a finding on its step",
    why: "a waiver that outlived its finding hides the next mistake of that kind, and the guide prints its reason",
    group: Group::Bookkeeping,
    safety: false,
};

/// A waiver names a rule.
pub(in crate::rules) static UNKNOWN_RULE: Check = Check {
    id: "unknown-rule",
    level: Level::Error,
    about: "every waiver names a rule that there is",
    why: "the finding that it was meant for is still reported",
    group: Group::Names,
    safety: false,
};

/// Whether a step waives a rule; one that keeps people safe is never waived.
pub(in crate::rules) fn waives(scheme: &Scheme, step: usize, rule: &str) -> bool {
    if RULES.iter().any(|one| one.check.safety && one.check.id == rule) {
        return false;
    }
    scheme.steps.get(step).is_some_and(|step| step.waivers.iter().any(|waiver| waiver.rule == rule))
}

/// What is wrong with the waivers of a scheme. Those of safety rules and of cautions are told with the cautions.
pub(in crate::rules) fn check(scheme: &Scheme, silenced: &[Fault], registry: Registry) -> Vec<Finding> {
    let all = scheme.steps.iter().enumerate().flat_map(|(at, step)| step.waivers.iter().map(move |one| (at, one)));
    all.filter_map(|(step, waiver)| check_one(step, waiver, silenced, registry)).collect()
}

fn check_one(step: usize, waiver: &Waiver, silenced: &[Fault], registry: Registry) -> Option<Finding> {
    let known = registry.find(&waiver.rule);
    if known.is_some_and(|check| check.safety) || CautionKind::NAMES.contains(&waiver.rule.as_str()) {
        return None;
    }
    if !RULES.iter().any(|rule| rule.check.id == waiver.rule) {
        return Some(unknown(waiver, known));
    }
    let needed = silenced.iter().any(|fault| fault.step == step && fault.rule.check.id == waiver.rule);
    (!needed).then(|| {
        let message = format!("nothing on this step breaks {}", wording::quoted(&waiver.rule));
        Finding::new(
            &IDLE_WAIVER,
            waiver.place,
            message,
            "take the waiver out, or put it on the step that the finding is about",
        )
    })
}

/// A waiver of something that no step breaks: no check at all, or one that does not ask a step.
fn unknown(waiver: &Waiver, known: Option<&Check>) -> Finding {
    let quoted = wording::quoted(&waiver.rule);
    if known.is_some() {
        let message = format!("{quoted} can't be waived: it is not a rule about how a step is painted");
        return Finding::new(
            &UNKNOWN_RULE,
            waiver.place,
            message,
            "take the waiver out, and mend what the finding says",
        );
    }
    let rules = RULES.iter().map(|rule| &rule.check).filter(|check| !check.safety).map(|check| check.id);
    let mend = match wording::nearest(&waiver.rule, rules) {
        Some(near) => format!("did you mean {}?", wording::quoted(near)),
        None => "look up its id on the page of what is checked".to_owned(),
    };
    Finding::new(&UNKNOWN_RULE, waiver.place, format!("there is no rule {quoted}"), mend)
}
