//! Rules about colours that hide each other or are not seen.

pub(super) mod areas_alike;
pub(super) mod candy_by_brush;
pub(super) mod clear_coats_together;
pub(super) mod colour_not_reached;
pub(super) mod colours_buried;
pub(super) mod detail_hidden;
pub(super) mod drybrush_beside_finished;
pub(super) mod drybrush_hidden;
pub(super) mod glaze_hides;
pub(super) mod glaze_without_ground;
pub(super) mod highlight_darker;
pub(super) mod highlight_not_seen;
pub(super) mod highlight_under_wash;
pub(super) mod left_bare;
pub(super) mod mirror_on_matt;
pub(super) mod one_coat_on_broad;
pub(super) mod one_coat_on_dark;
pub(super) mod opaque_over_clear;
pub(super) mod overspray_on_finished;
pub(super) mod preshade_hidden;
pub(super) mod preshade_over_colour;
pub(super) mod shows_otherwise;
