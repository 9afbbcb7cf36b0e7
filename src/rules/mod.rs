//! **Rules**: what a painter of long standing would say about the order, the paints and the waits of a scheme.
//!
//! Every rule looks at the [film](crate::film) before and after one step. To add one:
//!
//! 1. write `src/rules/<id_with_underscores>.rs`: a module doc that says what goes wrong on the model, a
//!    `pub(super) static RULE: Rule` with its [`Check`] (id, level, about, why, group), and the function that looks.
//!    It tells with [`Told::tell`]: the step whose file has the mend (its waivers count), the step it clashes with,
//!    and a closure that makes the [`Finding`]: the author's own titles through [`Look::title`] and
//!    [`Look::area_titles`], the place from the step's [`StepPlaces`](crate::guide::StepPlaces), the other step
//!    through [`Look::see`], times through `look::rested` and `look::needed`;
//! 2. name the module and the rule below, in [`RULES`]; a rule about the guide as a whole goes into [`GUIDE_RULES`]
//!    and its check into [`checks`];
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
pub use order::mend::propose_order;
pub use order::renumber::{Rename, renumber};

use crate::film::{Conditions, Film};
use crate::guide::{Guide, Scheme};
use crate::report::{Check, Finding};
use judge::told::Fault;

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

/// Every rule, in the order of the page "What is checked".
pub static RULES: &[&Rule] = &[
    &ground::no_undercoat::RULE,
    &ground::undercoat_over_paint::RULE,
    &ground::wash_after_undercoat::RULE,
    &ground::fill_after_undercoat::RULE,
    &ground::solvent_on_foam::RULE,
    &ground::solvent_on_vinyl::RULE,
    &tones::preshade_hidden::RULE,
    &tones::detail_hidden::RULE,
    &tones::overspray_on_finished::RULE,
    &tones::highlight_not_seen::RULE,
    &tones::areas_alike::RULE,
    &order::house_order::RULE,
    &tones::glaze_without_ground::RULE,
    &tones::opaque_over_clear::RULE,
    &tones::clear_coats_together::RULE,
    &varnishes::matt_over_metallic::RULE,
    &varnishes::matt_under_clear::RULE,
    &varnishes::gloss_dulled::RULE,
    &decals::decal_needs_gloss::RULE,
    &decals::decal_not_cured::RULE,
    &decals::decal_unsealed::RULE,
    &decals::decal_painted_over::RULE,
    &weathering::enamel_on_unsealed::RULE,
    &weathering::pin_wash_on_matt::RULE,
    &weathering::weathering_order::RULE,
    &weathering::pigment_under_brush::RULE,
    &weathering::pigment_unfixed::RULE,
    &varnishes::varnish_before_dry::RULE,
    &varnishes::no_final_varnish::RULE,
    &varnishes::frosting_risk::RULE,
    &drying::strong_solvent_over_weak::RULE,
    &drying::over_uncured::RULE,
    &mixing::families_in_one_cup::RULE,
    &mixing::wrong_thinner::RULE,
    &mixing::doubtful_thinner::RULE,
    &mixing::over_thinned::RULE,
    &mixing::clogs_the_airbrush::RULE,
    &mixing::not_for_spraying::RULE,
    &masks::mask_on_uncured::RULE,
    &masks::mask_left_on::RULE,
    &masks::unmask_without_mask::RULE,
    &masks::mask_too_long::RULE,
    &chips::chipping_unsealed::RULE,
    &chips::chipping_without_resist::RULE,
    &chips::chipping_under_hard_coat::RULE,
    &chips::chipping_too_early::RULE,
    &chips::chipping_too_late::RULE,
    &chips::chipping_residue::RULE,
    &drying::dry_too_short::RULE,
    &drying::wait_too_short::RULE,
    &drying::too_thick::RULE,
    &mixing::discontinued_paint::RULE,
];

/// What is checked once for a whole guide, beside the rules for its schemes.
pub static GUIDE_RULES: &[fn(&Guide) -> Vec<Finding>] = &[
    records::bench_key::check,
    records::area_unused::check,
    records::area_unpainted::check,
    records::tool_unused::check,
    records::paint_unused::check,
    records::minutes_missing::check,
    records::video_missing::check,
];

/// What a rule says about a scheme that breaks it, if the check is a rule for schemes.
pub fn example(check: &str) -> Option<&'static str> {
    RULES.iter().find(|rule| rule.check.id == check).map(|rule| rule.example)
}

/// Every check of this layer.
pub fn checks() -> impl Iterator<Item = &'static Check> {
    let bookkeeping = [
        &records::area_unused::AREA_UNUSED,
        &records::area_unpainted::AREA_UNPAINTED,
        &records::tool_unused::TOOL_UNUSED,
        &records::paint_unused::PAINT_UNUSED,
        &records::minutes_missing::MINUTES_MISSING,
        &records::video_missing::VIDEO_MISSING,
        &judge::waivers::IDLE_WAIVER,
        &judge::waivers::UNKNOWN_RULE,
        &records::bench_key::UNKNOWN_BENCH_KEY,
    ];
    RULES.iter().map(|rule| &rule.check).chain(bookkeeping)
}

/// What is wrong with the guide as a whole.
pub fn check_guide(guide: &Guide) -> Vec<Finding> {
    GUIDE_RULES.iter().flat_map(|rule| rule(guide)).collect()
}

/// What is wrong with a scheme, each finding with its mend.
pub fn check(guide: &Guide, scheme: &Scheme, conditions: &Conditions) -> Vec<Finding> {
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    check_film(&Surroundings::of(guide, scheme), &Film::walk(scheme, &order, conditions), conditions)
}

/// The same by a film that has been walked already, in the order of the scheme's files.
pub fn check_film(around: &Surroundings<'_>, film: &Film<'_>, conditions: &Conditions) -> Vec<Finding> {
    let scheme = film.scheme();
    let trial = Trial { around, scheme, conditions };
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let told = trial.look_at(film, |_| true, true);
    let (waived, faults): (Vec<Fault>, Vec<Fault>) =
        told.into_iter().partition(|fault| judge::waivers::waives(scheme, fault.step, fault.rule.check.id));
    let mut findings = judge::waivers::check(scheme, &waived);
    findings.extend(order::mend::mended(&trial, &order, faults));
    findings
}

/// A scheme to which the rules are put, in one order of its steps or another.
#[derive(Debug, Clone, Copy)]
struct Trial<'a> {
    around: &'a Surroundings<'a>,
    scheme: &'a Scheme,
    conditions: &'a Conditions,
}

impl Trial<'_> {
    /// What some rules say about a film; with words, or only which rule and which step.
    fn look_at(&self, film: &Film<'_>, rules: fn(&Rule) -> bool, words: bool) -> Vec<Fault> {
        let mut told = Told::new(words);
        for position in 0..film.turns().len() {
            let Some(look) = Look::at(self.around, self.conditions, film, position) else { continue };
            for rule in RULES.iter().copied().filter(|rule| rules(rule)) {
                told.hear(rule);
                (rule.look)(&look, &mut told);
            }
        }
        told.into_faults()
    }
}
