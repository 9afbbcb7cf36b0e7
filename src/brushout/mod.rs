//! **Brush-out**: from a photograph of a painted card to the colours of a paint.
//!
//! The card has a white and a black band, and the same film of paint over both. A point in the picture is named for each,
//! and if possible one or more of the bare white card ([`PAPER`]) or of a grey card; they tell how bright and of which
//! colour the light was. Each point stands for a small square, which is read in linear light and robustly, so that glare
//! on a ridge or a speck of dust does not count (`Sample`). With one bare point the light is taken as even, with two it
//! changes evenly from one to the other, with three or more over the whole card ([`Light`]). A point on the bare black card
//! tells the veil that glare lays over the whole picture.
//!
//! The picture's colour profile is taken into account. A camera's own contrast curve is not undone, and what is clipped is
//! lost: both are reasons for dull light, no flash and a bare patch beside the paint. What can't be read is refused with
//! the reason and the mend ([`Refusal`]).

mod bands;
mod card;
mod entry;
mod light;
mod patch;
mod plausible;
mod point;
mod refusal;
mod spots;

pub use bands::Bands;
pub use card::{Bare, Card, Reading, Spot, read, unusable};
pub use entry::{Entry, Label, entry};
pub use light::Light;
pub use point::{PatchSize, Point};
pub use refusal::Refusal;
pub use spots::spots;

/// What the bare white card reflects: the same as in the colour method.
pub use crate::colour::WHITE_CARD as PAPER;
