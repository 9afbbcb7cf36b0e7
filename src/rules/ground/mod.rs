//! Rules about what a model is made of and what lies under the colours.

pub(super) mod fill_after_undercoat;
pub(super) mod no_undercoat;
pub(super) mod pour_on_raw;
pub(super) mod resin_not_washed;
pub(super) mod solvent_on_foam;
pub(super) mod solvent_on_vinyl;
pub(super) mod undercoat_on_wet;
pub(super) mod undercoat_over_paint;
pub(super) mod wash_after_undercoat;
pub(super) mod wash_on_bare_plastic;
pub(super) mod worked_after_paint;
