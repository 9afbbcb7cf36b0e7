//! **Bench**: the figures that every result rests on, the table of drying times, and the units they count in.
//!
//! An author can put own figures in their places, in `guide.yaml` under `bench`.

#[macro_use]
mod entry;
#[macro_use]
mod sizes;
mod figures;
mod model;
mod own;
mod times;
mod units;
mod usual;

pub use figures::{FIGURES, Figure};
pub use model::Base;
pub(crate) use model::NAMED_AFTER;
pub use own::Bench;
pub use times::Setting;
pub use units::{Gloss, Micrometres, Minutes};
pub use usual::{minutes, usual_minutes};
