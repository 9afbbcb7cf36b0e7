//! **Press**: templates, pictures and data files become the published folder, as one change.

mod copies;
mod engine;
mod held;
mod makings;
mod pictures;
mod progress;
mod publish;
mod shown;
mod single;
mod singles;
mod site;
mod spoken;
mod version;

pub use engine::Engine;
pub use held::Held;
pub use progress::Progress;
pub use publish::{Pressed, press};
pub use site::{Hitch, Site, photo_to_draw};
