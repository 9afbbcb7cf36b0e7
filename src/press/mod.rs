//! **Press**: templates, pictures and data files become the published folder, as one change.

mod engine;
mod gate;
mod pictures;
mod publish;
mod shown;
mod single;
mod singles;
mod site;
mod version;

pub use engine::Engine;
pub use publish::{Pressed, Progress, press};
pub use site::{Hitch, Piece, Site};
