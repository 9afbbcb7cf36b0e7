//! Pages and files of one army.

pub(super) mod army;
pub(super) mod plan_view;
pub(super) mod tick_grid;
