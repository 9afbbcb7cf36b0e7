//! The guide's pictures: looked at before anything is written, and made ready for publishing.
//!
//! A picture is published in up to three widths. Each copy is upright, is in sRGB, has no location, camera or other
//! hidden data, and is no wider than a page can show. Only its pixels are taken over; everything else that a camera
//! wrote stays at home.

mod checks;
mod copy;
mod fault;
mod opened;
mod pixels;
mod ready;
mod scaled;
mod survey;
mod to_srgb;
mod whole;

pub use checks::CHECKS;
pub use copy::{Copy, Size};
pub use fault::Fault;
pub use pixels::{Pixels, laid_on, opaque, pixel_count, pixels};
pub use ready::{MAKING, ready};
pub use survey::{KeptPictures, MOST_BYTES, Picture, Pictures, survey};
