//! Pages and files of one army.

pub(super) mod army;
pub(super) mod army_calendar;
pub(super) mod ics;
pub(super) mod plan_json;
pub(super) mod plan_text;
pub(super) mod plan_view;
pub(super) mod planned;
pub(super) mod tick_grid;
