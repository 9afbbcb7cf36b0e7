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
//! 2. name the module in its room, and the rule in one line of `rules!` below; a rule about the guide as a whole gets a
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
pub use judge::look::Look;
pub use judge::surroundings::Surroundings;
pub use judge::told::Told;
pub use order::propose::propose_order;
pub use order::renumber::{Rename, renumber};

use crate::film::{Conditions, Film};
use crate::guide::{Guide, Scheme};
use crate::report::{Check, Finding, Registry};
use judge::told::Fault;
use order::budget::Budget;

/// One rule.
#[derive(Debug)]
pub struct Rule {
    /// What is checked, and why.
    pub check: Check,
    /// What it says about a scheme that breaks it, word for word as in one of its cases.
    pub example: &'static str,
    /// Whether another order of the same steps could mend it.
    pub ordering: bool,
    /// Looks at one step.
    pub look: fn(&Look<'_>, &mut Told),
}

/// The rules for schemes, in the order of the page "What is checked": the rules themselves, and their checks.
macro_rules! rules {
    ($($room:ident::$rule:ident),* $(,)?) => {
        /// Every rule for schemes.
        pub static RULES: &[&Rule] = &[$(&$room::$rule::RULE),*];

        /// The check of every rule for schemes.
        pub const SCHEME_CHECKS: &[&Check] = &[$(&$room::$rule::RULE.check),*];
    };
}

rules! {
    ground::no_undercoat,
    ground::undercoat_over_paint,
    ground::wash_after_undercoat,
    ground::fill_after_undercoat,
    ground::solvent_on_foam,
    ground::solvent_on_vinyl,
    tones::preshade_hidden,
    tones::detail_hidden,
    tones::overspray_on_finished,
    tones::highlight_not_seen,
    tones::areas_alike,
    order::house_order,
    tones::glaze_without_ground,
    tones::opaque_over_clear,
    tones::clear_coats_together,
    varnishes::matt_over_metallic,
    varnishes::matt_under_clear,
    varnishes::gloss_dulled,
    decals::decal_needs_gloss,
    decals::decal_not_cured,
    decals::decal_unsealed,
    decals::decal_painted_over,
    weathering::enamel_on_unsealed,
    weathering::pin_wash_on_matt,
    weathering::weathering_order,
    weathering::pigment_under_brush,
    weathering::pigment_unfixed,
    varnishes::varnish_before_dry,
    varnishes::no_final_varnish,
    varnishes::frosting_risk,
    tones::colour_not_reached,
    tones::preshade_over_colour,
    tones::highlight_darker,
    tones::left_bare,
    tones::colours_buried,
    tones::drybrush_hidden,
    masks::painted_under_mask,
    decals::decal_sealed_wet,
    varnishes::gloss_over_pigment,
    varnishes::varnish_in_between,
    ground::worked_after_paint,
    ground::undercoat_on_wet,
    varnishes::grass_before_varnish,
    drying::strong_solvent_over_weak,
    drying::over_uncured,
    mixing::families_in_one_cup,
    mixing::wrong_thinner,
    mixing::doubtful_thinner,
    mixing::over_thinned,
    mixing::clogs_the_airbrush,
    mixing::not_for_spraying,
    masks::mask_on_uncured,
    masks::mask_left_on,
    masks::unmask_without_mask,
    masks::mask_too_long,
    chips::chipping_unsealed,
    chips::chipping_without_resist,
    chips::chipping_under_hard_coat,
    chips::chipping_too_early,
    chips::chipping_too_late,
    chips::chipping_residue,
    drying::dry_too_short,
    drying::wait_too_short,
    drying::too_thick,
    mixing::discontinued_paint,
}

/// What is checked once for a whole guide.
#[derive(Debug)]
pub struct GuideRule {
    /// What is checked, and why.
    pub check: &'static Check,
    /// Looks at the guide.
    pub look: fn(&Guide) -> Vec<Finding>,
}

/// The rules for guides, one `room: check` a line: the rules themselves, and their checks.
macro_rules! guide_rules {
    ($($rule:ident: $check:ident),* $(,)?) => {
        /// Every rule for a guide as a whole.
        pub static GUIDE_RULES: &[GuideRule] =
            &[$(GuideRule { check: &records::$rule::$check, look: records::$rule::check }),*];

        /// The check of every rule for a guide as a whole.
        pub const GUIDE_CHECKS: &[&Check] = &[$(&records::$rule::$check),*];
    };
}

guide_rules! {
    area_unused: AREA_UNUSED,
    area_unpainted: AREA_UNPAINTED,
    tool_unused: TOOL_UNUSED,
    paint_unused: PAINT_UNUSED,
    minutes_missing: MINUTES_MISSING,
    video_missing: VIDEO_MISSING,
    bench_key: UNKNOWN_BENCH_KEY,
}

/// What is checked about waivers, and about the search for mends.
pub const OTHER_CHECKS: &[&Check] =
    &[&judge::waivers::IDLE_WAIVER, &judge::waivers::UNKNOWN_RULE, &order::budget::MENDS_UNTRIED];

/// What a rule says about a scheme that breaks it, if the check is a rule for schemes.
pub fn example(check: &str) -> Option<&'static str> {
    RULES.iter().find(|rule| rule.check.id == check).map(|rule| rule.example)
}

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
    findings.extend(order::mend::mended(&trial, &order, faults));
    findings.extend(budget.note(scheme));
    findings
}

/// A scheme to which the rules are put, in one order of its steps or another.
#[derive(Debug, Clone, Copy)]
struct Trial<'a> {
    around: &'a Surroundings<'a>,
    scheme: &'a Scheme,
    conditions: &'a Conditions,
    /// How many other orders may still be tried.
    budget: &'a Budget,
}

impl Trial<'_> {
    /// What some rules say about a film; with words, or only which rule and which step.
    fn look_at(&self, film: &Film<'_>, rules: fn(&Rule) -> bool, words: bool) -> Vec<Fault> {
        let mut told = Told::new(words);
        for position in 0..film.turns().len() {
            let Some(look) = Look::at(self.around, self.conditions, film, position) else { continue };
            for rule in RULES.iter().copied().filter(|rule| rules(rule)) {
                (rule.look)(&look, &mut told);
            }
        }
        told.into_faults()
    }
}
