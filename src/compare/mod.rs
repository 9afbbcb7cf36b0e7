//! **Compare**: the areas of a photographed model against what was predicted for them, and what explains the difference.
//!
//! Each area is read at a point that the painter names, or through a map on which it has a colour of its own. Then every
//! step that coloured it is tried in the film with one thing changed ([`Change`]): a coat less or more, left out, or mixed
//! another way. The trial that comes nearest is reported, where it comes clearly nearer than what is written.

mod photo;
mod trial;

pub use photo::{Absence, Measured, Missing, Question, Reading, measure};
pub use trial::{Change, Compared, Trial, compare};
