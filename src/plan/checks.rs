//! The checks on an army's evenings.

use crate::report::{Check, Group, Level};

/// What this layer checks.
pub const CHECKS: &[&Check] = &[
    &TOO_LONG_FOR_AN_EVENING,
    &COAT_TOO_LONG,
    &NO_EVENINGS,
    &FIRST_DAY_WITHOUT_EVENING,
    &DAY_OFF_WITHOUT_EVENING,
    &READY_BY,
    &PLAN_TOO_LONG,
];

const fn check(id: &'static str, about: &'static str, why: &'static str) -> Check {
    Check { id, level: Level::Warning, about, why, group: Group::Evenings, safety: false }
}

/// Steps that belong on one evening go into one.
pub(crate) static TOO_LONG_FOR_AN_EVENING: Check = check(
    "too-long-for-an-evening",
    "what must be done in one go goes into one evening: a step with all its models together, a colour with its chipping or \
     with the tape that comes off it; a mask that goes on, is painted over and comes off goes into one too",
    "the plan must split it: then not all models get the same lot and hand, or the film is too hard when it is chipped or \
     the tape is pulled",
);

/// A coat on one model goes into an evening.
pub(crate) static COAT_TOO_LONG: Check = check(
    "coat-too-long-for-an-evening",
    "one coat of a step on one model goes into an evening, with setting up and cleaning",
    "no evening holds it, so there is no plan",
);

/// There are evenings.
pub(crate) static NO_EVENINGS: Check = check(
    "no-evenings",
    "an army's evenings name days and a length, and end before the next one begins",
    "there is nothing to lay a plan out on",
);

/// The first day is one of the days.
pub(crate) static FIRST_DAY_WITHOUT_EVENING: Check = Check {
    level: Level::Note,
    ..check(
        "first-day-without-evening",
        "the first day of an army's evenings is one of their days of the week",
        "the plan begins some days later than it reads",
    )
};

/// A day off takes an evening away.
pub(crate) static DAY_OFF_WITHOUT_EVENING: Check = Check {
    level: Level::Note,
    ..check(
        "day-off-without-evening",
        "a day off falls on one of the evenings",
        "it takes no evening away, so another date may be meant",
    )
};

/// The army is ready in time.
pub(crate) static READY_BY: Check = check(
    "ready-by",
    "an army is painted and dry by the date that its evenings name",
    "the date passes with models that are not ready",
);

/// The plan has an end.
pub(crate) static PLAN_TOO_LONG: Check = check(
    "plan-too-long",
    "an army can be painted in five years of two evenings a week, with no more coats than a plan can be made for",
    "nobody follows a plan that long, and it is not made",
);
