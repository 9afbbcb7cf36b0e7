//! Rules that a step breaks on purpose: `waive` silences a rule on its step, and must have something to silence.

use super::told::Fault;
use crate::guide::{self, Scheme, Waiver};
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{RULES, checks};
use crate::{caution, theme};

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
    why: "the finding that it was meant for is told all the same",
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

/// What is wrong with the waivers of a scheme.
pub(in crate::rules) fn check(scheme: &Scheme, silenced: &[Fault]) -> Vec<Finding> {
    let all = scheme.steps.iter().enumerate().flat_map(|(at, step)| step.waivers.iter().map(move |one| (at, one)));
    all.filter_map(|(step, waiver)| check_one(step, waiver, silenced)).collect()
}

fn check_one(step: usize, waiver: &Waiver, silenced: &[Fault]) -> Option<Finding> {
    let is_rule = |check: &Check| check.id == waiver.rule;
    let below = [guide::CHECKS, caution::CHECKS, theme::CHECKS].into_iter().flatten();
    if below.copied().chain(checks()).any(|check| check.safety && is_rule(check)) {
        return None;
    }
    if !RULES.iter().any(|rule| is_rule(&rule.check) && !rule.check.safety) {
        return Some(unknown(waiver));
    }
    let needed = silenced.iter().any(|fault| fault.step == step && is_rule(&fault.rule.check));
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

fn unknown(waiver: &Waiver) -> Finding {
    let known: Vec<&str> =
        RULES.iter().map(|rule| &rule.check).filter(|check| !check.safety).map(|check| check.id).collect();
    let message = if checks().any(|check| check.id == waiver.rule) {
        format!("{} can't be waived", wording::quoted(&waiver.rule))
    } else {
        format!("there is no rule {}", wording::quoted(&waiver.rule))
    };
    let mend = match wording::nearest(&waiver.rule, known.iter().copied()) {
        Some(near) => format!("did you mean {}?", wording::quoted(near)),
        None => "look up its id on the page of what is checked".to_owned(),
    };
    Finding::new(&UNKNOWN_RULE, waiver.place, message, mend)
}
