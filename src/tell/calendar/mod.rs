//! The plan of an army as a calendar file.

mod army;
mod ics;

pub(crate) use army::army_calendar;
