//! Pages about paints and what has to be bought.

pub(super) mod basket;
mod hue;
pub(super) mod near;
pub(super) mod paints;
pub(super) mod shopping;
pub(super) mod slip_data;
