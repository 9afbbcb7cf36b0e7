//! The guide's pictures: looked at before anything is written, and made ready for publishing.
//!
//! A published copy stands upright, has no location, camera or other hidden data, and is no wider than a
//! page can show. Only its pixels are taken over; everything else that a camera wrote stays at home.

mod checks;
mod ready;
mod survey;

pub use checks::CHECKS;
pub use ready::ready;
pub use survey::{Kept, Picture, Pictures, Size, survey};
