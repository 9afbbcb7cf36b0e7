//! **Rules**: what a painter of long standing would say about the order, the paints and the waits of a scheme.
//!
//! Every rule looks at the [film](crate::film) before and after one step. To add one:
//!
//! 1. write `src/rules/<room>/<id_with_underscores>.rs`: a module doc that says what goes wrong on the model, a
//!    `pub(in crate::rules) static RULE: Rule` with its [`Check`] (id, level, about, why, group), and the function that looks.
//!    It tells with [`Told::tell`]: the step whose file has the mend (its waivers count), the step it clashes with,
//!    and a closure that makes the [`Finding`]: the author's own titles through [`Look::title`] and
//!    [`Look::area_titles`], the place from the step's [`StepPlaces`](crate::guide::StepPlaces), the other step
//!    through [`Look::see`], times through `look::rested` and `look::needed`;
//! 2. name the module in its room, and the rule in one line of `rules!` in `book.rs`; a rule about the guide as a whole gets a
//!    line of `guide_rules!`;
//! 3. write `tests/cases/rules/<id>.txt` with a case that fires and one that is quiet (`tests/cases.rs` says how).
//!
//! Say `ordering: true` where another order of the same steps could mend it: then every other place for the step, and
//! for the one that it clashes with, is tried, the nearest that breaks nothing is named, and the rule's own mend is
//! what to do if there is none. The same rules lead [`propose_order`]; where one mistake can strike several times,
//! tell it with [`Told::tell_often`], so that the search feels that an order gets better.
//!
//! One mistake, one finding: where two rules see the same thing, one of them is silent (see `over_uncured` and
//! `dry_too_short`). Grade by harm: an error is likely ruin, a warning is usually wrong, a note is worth knowing. When
//! in doubt be quiet: a painter who is warned without need stops reading. Figures come from [`crate::bench::Figure`].

mod assembly;
mod book;
mod chips;
mod decals;
mod drying;
mod ground;
mod judge;
mod masks;
mod mixing;
mod order;
mod records;
mod tones;
mod varnishes;
mod weathering;
pub use book::{GUIDE_CHECKS, GUIDE_RULES, RULES, SCHEME_CHECKS, example};
pub use judge::look::Look;
pub use judge::surroundings::Surroundings;
pub use judge::told::{Rule, Told};
pub use order::propose::{compare_orders, propose_order};
pub use order::renumber::{Rename, renumber};

use crate::film::{Conditions, Film};
use crate::guide::{Guide, Scheme};
use crate::report::{Check, Finding, Registry};
use judge::told::Fault;
use order::budget::Budget;
use order::trial::Trial;

/// What is checked about waivers, and about the search for mends.
pub const OTHER_CHECKS: &[&Check] =
    &[&judge::waivers::IDLE_WAIVER, &judge::waivers::UNKNOWN_RULE, &order::budget::MENDS_UNTRIED];

/// What is wrong with the guide as a whole.
pub fn check_guide(guide: &Guide) -> Vec<Finding> {
    GUIDE_RULES.iter().flat_map(|rule| (rule.look)(guide)).collect()
}

/// What is wrong with a scheme, each finding with its mend.
pub fn check(guide: &Guide, scheme: &Scheme, conditions: &Conditions, registry: Registry) -> Vec<Finding> {
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    check_film(&Surroundings::of(guide, scheme, registry), &Film::walk(scheme, &order, conditions), conditions)
}

/// The same by a film that has been walked already, in the order of the scheme's files.
pub fn check_film(around: &Surroundings<'_>, film: &Film<'_>, conditions: &Conditions) -> Vec<Finding> {
    let scheme = film.scheme();
    let budget = Budget::of(scheme.steps.len());
    let trial = Trial { around, scheme, conditions, budget: &budget };
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let told = trial.look_at(film, |_| true, true);
    let (waived, faults): (Vec<Fault>, Vec<Fault>) =
        told.into_iter().partition(|fault| judge::waivers::waives(scheme, fault.step, fault.rule.check.id));
    let mut findings = judge::waivers::check(scheme, &waived, around.registry);
    findings.extend(order::mend::mended(&trial, &order, judge::told::once_a_wait(faults)));
    findings.extend(budget.note(scheme));
    findings
}

/// What is wrong with a scheme of which only some steps are done, in an order; without a search for mends.
pub fn check_order(
    around: &Surroundings<'_>,
    scheme: &Scheme,
    order: &[usize],
    conditions: &Conditions,
) -> Vec<Finding> {
    let budget = Budget::of(scheme.steps.len());
    let trial = Trial { around, scheme, conditions, budget: &budget };
    let told = trial.look_at(&Film::walk(scheme, order, conditions), |_| true, true);
    let faults = told.into_iter().filter(|fault| !judge::waivers::waives(scheme, fault.step, fault.rule.check.id));
    judge::told::once_a_wait(faults.collect()).into_iter().filter_map(|fault| fault.finding).collect()
}
