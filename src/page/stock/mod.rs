//! Pages about paints and what has to be bought.

pub(super) mod basket;
pub(super) mod columns;
mod hue;
pub(super) mod near;
pub(super) mod paints;
pub(super) mod shopping;
pub(super) mod slip_data;
