//! Rules about varnish and sheen.

pub(super) mod frosting_risk;
pub(super) mod gloss_dulled;
pub(super) mod gloss_over_pigment;
pub(super) mod grass_before_varnish;
pub(super) mod matt_over_metallic;
pub(super) mod matt_under_clear;
pub(super) mod mirror_dulled;
pub(super) mod no_final_varnish;
pub(super) mod varnish_before_dry;
pub(super) mod varnish_in_between;
