//! **Colour**: what every coat will look like, as far as can be told.
//!
//! Paint is not light: a mix of yellow and blue is green, and a thin coat shows what lies beneath. So colours are
//! calculated band by band with what each paint absorbs and scatters (Kubelka and Munk's theory with Saunderson's surface):
//!
//! - [`Surface`] is the skin of the films; [`Shelf`] works out a [`Pigment`] for each paint of a guide, from its colour,
//!   its hiding class and its swatches ([`estimate`]); a paint without a colour has none.
//! - [`Mixture`] is what is in the cup, by wet volume.
//! - [`Stack`] is what lies on the model: a [`Ground`], films laid on it one after the other, a varnish. It tells its
//!   colour, what that rests on ([`Evidence`]), and how far it may be off ([`Uncertainty`]).
//! - [`Sight`] is how eyes without one kind of cones see a colour.
//! - [`coats`] counts: how many hide, how many still show. [`difference`] tells how far two colours lie apart.
//!
//! ```
//! use maulstick::colour::{Evidence, Ground, Mixture, Pigment, Stack, Surface, coats};
//! # use maulstick::colour::Depths;
//! # let depths = Depths { absorbed: [0.4; 36], scattered: [1.5; 36] };
//! # let grey = Pigment { depths, evidence: Some(Evidence::Class), ..Pigment::COLOURLESS };
//! // `grey` is a pigment from a shelf; here one part of it with two parts of medium.
//! let glaze = Mixture::of(&[(&grey, 1.0), (&Pigment::COLOURLESS, 2.0)]).unwrap();
//! let primed = Stack::on(&Ground::grey(0.8), Surface::CHART);
//! let glazed = primed.lay(&glaze, 2.0);
//! assert!(glazed.lab().l < primed.lab().l);
//! assert_eq!(glazed.evidence(), Some(Evidence::Class));
//! assert!(coats::coats_to_hide(&glaze, 1.0) > coats::coats_to_hide(&glaze, 2.0));
//! ```
//!
//! # The same on every machine
//!
//! All is done in IEEE 754 doubles in a fixed order; nothing is fused or reordered, and there is no chance and no
//! thread in it. Additions, products, quotients and roots are then the same bits everywhere. `exp`, `ln`, `pow` and the
//! hyperbolic functions come from the platform and may differ in the last bit; fits are run until they settle, so that
//! this stays near 1e-8 of a depth, far below the eighth bit of a channel and the first decimal of a difference.

pub mod bands;
mod candidates;
pub mod cie;
mod clean;
mod coarse;
pub mod coats;
mod constants;
pub mod contrast;
mod depths;
mod doubt;
mod drawn;
pub mod estimate;
mod evidence;
pub mod film;
mod gleam;
mod hue_word;
pub mod invert;
mod judge;
mod known;
mod label;
mod leaning;
mod matrix;
mod mixture;
pub mod observation;
mod own;
mod pigment;
mod prior;
mod shelf;
mod sight;
pub mod space;
mod stack;
mod surface;
pub mod upsample;

pub use candidates::Library;
pub(crate) use constants::TELLS_NO_STRENGTH;
pub use constants::{BLACK_CARD, CLOSE, HIDES, JUST_SEEN, MOST_COATS, PLAINLY_SEEN, WHITE_CARD};
pub use depths::Depths;
pub use evidence::{Evidence, Sureness, Uncertainty};
pub use film::Film;
pub use gleam::Gleam;
pub use hue_word::{HueWord, hue_word};
pub use known::Body;
pub use label::coats_over_white;
pub use mixture::Mixture;
pub use pigment::Pigment;
pub use shelf::Shelf;
pub use sight::Sight;
pub use space::{difference, in_whole, lab_difference};
pub use stack::{Ground, Stack};
pub use surface::{Inner, Outer, Surface};
