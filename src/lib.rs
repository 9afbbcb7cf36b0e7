//! Maulstick.

pub mod caution;
pub mod door;
pub mod guide;
pub mod measure;
pub mod report;
pub mod source;
pub mod trade;
