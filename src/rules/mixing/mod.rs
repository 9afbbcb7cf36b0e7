//! Rules about what is poured together, and through which nozzle it goes.

pub(super) mod clogs_the_airbrush;
pub(super) mod discontinued_paint;
pub(super) mod doubtful_thinner;
pub(super) mod families_in_one_cup;
pub(super) mod not_for_spraying;
pub(super) mod over_thinned;
pub(super) mod thinning;
pub(super) mod wrong_thinner;
