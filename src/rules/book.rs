//! All rules: those for schemes, those for a guide as a whole, and the checks of both.

use super::judge::told::Rule;
use super::{assembly, chips, decals, drying, ground, masks, mixing, order, records, tones, varnishes, weathering};
use crate::guide::Guide;
use crate::report::{Check, Finding};

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
    ground::wash_on_bare_plastic,
    ground::resin_not_washed,
    ground::pour_on_raw,
    tones::preshade_hidden,
    tones::detail_hidden,
    tones::overspray_on_finished,
    tones::highlight_not_seen,
    tones::highlight_under_wash,
    tones::areas_alike,
    tones::shows_otherwise,
    order::house_order,
    tones::glaze_without_ground,
    tones::one_coat_on_dark,
    tones::one_coat_on_broad,
    tones::opaque_over_clear,
    tones::clear_coats_together,
    tones::candy_by_brush,
    varnishes::matt_over_metallic,
    varnishes::matt_under_clear,
    varnishes::mirror_dulled,
    tones::mirror_on_matt,
    varnishes::gloss_dulled,
    decals::decal_needs_gloss,
    decals::decal_not_cured,
    decals::decal_unsealed,
    decals::decal_painted_over,
    decals::decal_on_dirt,
    weathering::enamel_on_unsealed,
    weathering::pin_wash_on_matt,
    weathering::weathering_order,
    weathering::pigment_under_brush,
    weathering::pigment_unfixed,
    weathering::pigment_on_gloss,
    weathering::fixer_before_powder,
    varnishes::varnish_before_dry,
    varnishes::no_final_varnish,
    varnishes::frosting_risk,
    tones::colour_not_reached,
    tones::preshade_over_colour,
    tones::highlight_darker,
    tones::left_bare,
    tones::colours_buried,
    tones::glaze_hides,
    tones::drybrush_hidden,
    tones::drybrush_beside_finished,
    masks::painted_under_mask,
    assembly::painted_out_of_reach,
    assembly::glue_on_paint,
    assembly::instant_glue_fogs,
    decals::decal_sealed_wet,
    varnishes::gloss_over_pigment,
    varnishes::varnish_in_between,
    ground::worked_after_paint,
    ground::undercoat_on_wet,
    varnishes::grass_before_varnish,
    drying::strong_solvent_over_weak,
    drying::over_uncured,
    drying::blend_dries_first,
    mixing::families_in_one_cup,
    mixing::wrong_thinner,
    mixing::doubtful_thinner,
    mixing::over_thinned,
    mixing::clogs_the_airbrush,
    mixing::not_for_spraying,
    masks::mask_on_uncured,
    masks::mask_left_on,
    masks::mask_for_nothing,
    masks::unmask_without_mask,
    masks::mask_too_long,
    masks::mask_on_decal,
    masks::clear_part_frosted,
    chips::chipping_unsealed,
    chips::chipping_without_resist,
    chips::chipping_under_hard_coat,
    chips::chipping_too_early,
    chips::chipping_too_late,
    chips::chipping_too_thick,
    chips::chipping_not_done,
    chips::chipping_residue,
    drying::dry_too_short,
    drying::wait_too_short,
    drying::too_thick,
    drying::poured_too_deep,
    drying::depth_of_paint,
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
    unfinished: UNFINISHED,
    material_unknown: MATERIAL_UNKNOWN,
    base_missing: BASE_MISSING,
    bench_key: UNKNOWN_BENCH_KEY,
    bench_zero: BENCH_ZERO,
}

/// What a rule says about a scheme that breaks it, if the check is a rule for schemes.
pub fn example(check: &str) -> Option<&'static str> {
    RULES.iter().find(|rule| rule.check.id == check).map(|rule| rule.example)
}
