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
//! in doubt be quiet: a painter who is warned without need stops reading. Figures come from [`crate::film::Figure`].

mod area_unpainted;
mod area_unused;
mod areas_alike;
mod bench_key;
mod chipping;
mod chipping_residue;
mod chipping_too_early;
mod chipping_too_late;
mod chipping_under_hard_coat;
mod chipping_unsealed;
mod chipping_without_resist;
mod clear_coats_together;
mod clogs_the_airbrush;
mod decal_needs_gloss;
mod decal_not_cured;
mod decal_painted_over;
mod decal_unsealed;
mod detail_hidden;
mod discontinued_paint;
mod doubtful_thinner;
mod dry_too_short;
mod enamel_on_unsealed;
mod families_in_one_cup;
mod fill_after_undercoat;
mod frosting_risk;
mod glaze_without_ground;
mod gloss_dulled;
mod highlight_not_seen;
mod house_order;
mod look;
mod mask_left_on;
mod mask_on_uncured;
mod mask_too_long;
mod matt_over_metallic;
mod matt_under_clear;
mod mend;
mod minutes_missing;
mod no_final_varnish;
mod no_undercoat;
mod not_for_spraying;
mod opaque_over_clear;
mod over_thinned;
mod over_uncured;
mod overspray_on_finished;
mod paint_unused;
mod pigment_under_brush;
mod pigment_unfixed;
mod pin_wash_on_matt;
mod preshade_hidden;
mod renumber;
mod solvent_on_foam;
mod solvent_on_vinyl;
mod strong_solvent_over_weak;
mod surroundings;
mod thinning;
mod told;
mod too_thick;
mod tool_unused;
mod undercoat_over_paint;
mod unmask_without_mask;
mod varnish_before_dry;
mod video_missing;
mod wait_too_short;
mod waivers;
mod wash_after_undercoat;
mod weathering_order;
mod wrong_thinner;

pub use look::Look;
pub use mend::propose_order;
pub use renumber::{Rename, renumber};
pub use surroundings::Surroundings;
pub use told::Told;

use crate::film::{Conditions, Film};
use crate::guide::{Guide, Scheme};
use crate::report::{Check, Finding};
use told::Fault;

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
    &no_undercoat::RULE,
    &undercoat_over_paint::RULE,
    &wash_after_undercoat::RULE,
    &fill_after_undercoat::RULE,
    &solvent_on_foam::RULE,
    &solvent_on_vinyl::RULE,
    &preshade_hidden::RULE,
    &detail_hidden::RULE,
    &overspray_on_finished::RULE,
    &highlight_not_seen::RULE,
    &areas_alike::RULE,
    &house_order::RULE,
    &glaze_without_ground::RULE,
    &opaque_over_clear::RULE,
    &clear_coats_together::RULE,
    &matt_over_metallic::RULE,
    &matt_under_clear::RULE,
    &gloss_dulled::RULE,
    &decal_needs_gloss::RULE,
    &decal_not_cured::RULE,
    &decal_unsealed::RULE,
    &decal_painted_over::RULE,
    &enamel_on_unsealed::RULE,
    &pin_wash_on_matt::RULE,
    &weathering_order::RULE,
    &pigment_under_brush::RULE,
    &pigment_unfixed::RULE,
    &varnish_before_dry::RULE,
    &no_final_varnish::RULE,
    &frosting_risk::RULE,
    &strong_solvent_over_weak::RULE,
    &over_uncured::RULE,
    &families_in_one_cup::RULE,
    &wrong_thinner::RULE,
    &doubtful_thinner::RULE,
    &over_thinned::RULE,
    &clogs_the_airbrush::RULE,
    &not_for_spraying::RULE,
    &mask_on_uncured::RULE,
    &mask_left_on::RULE,
    &unmask_without_mask::RULE,
    &mask_too_long::RULE,
    &chipping_unsealed::RULE,
    &chipping_without_resist::RULE,
    &chipping_under_hard_coat::RULE,
    &chipping_too_early::RULE,
    &chipping_too_late::RULE,
    &chipping_residue::RULE,
    &dry_too_short::RULE,
    &wait_too_short::RULE,
    &too_thick::RULE,
    &discontinued_paint::RULE,
];

/// What is checked once for a whole guide, beside the rules for its schemes.
pub static GUIDE_RULES: &[fn(&Guide) -> Vec<Finding>] = &[
    bench_key::check,
    area_unused::check,
    area_unpainted::check,
    tool_unused::check,
    paint_unused::check,
    minutes_missing::check,
    video_missing::check,
];

/// What a rule says about a scheme that breaks it, if the check is a rule for schemes.
pub fn example(check: &str) -> Option<&'static str> {
    RULES.iter().find(|rule| rule.check.id == check).map(|rule| rule.example)
}

/// Every check of this layer.
pub fn checks() -> impl Iterator<Item = &'static Check> {
    let bookkeeping = [
        &area_unused::AREA_UNUSED,
        &area_unpainted::AREA_UNPAINTED,
        &tool_unused::TOOL_UNUSED,
        &paint_unused::PAINT_UNUSED,
        &minutes_missing::MINUTES_MISSING,
        &video_missing::VIDEO_MISSING,
        &waivers::IDLE_WAIVER,
        &waivers::UNKNOWN_RULE,
        &bench_key::UNKNOWN_BENCH_KEY,
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
        told.into_iter().partition(|fault| waivers::waives(scheme, fault.step, fault.rule.check.id));
    let mut findings = waivers::check(scheme, &waived);
    findings.extend(mend::mended(&trial, &order, faults));
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
