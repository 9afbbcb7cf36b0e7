//! Maulstick.

pub mod caution;
pub mod cli;
pub mod door;
pub mod draw;
pub mod film;
pub mod guide;
pub mod measure;
pub mod page;
pub mod picture;
pub mod press;
pub mod report;
pub mod rules;
pub mod source;
pub mod story;
pub mod theme;
pub mod trade;
pub mod work;
