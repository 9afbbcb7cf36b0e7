//! **Press**: templates, pictures and data files become the published folder, as one change.

mod copies;
mod engine;
mod held;
mod link;
mod makings;
mod media;
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
pub(crate) use media::media_type;
pub use progress::Progress;
pub use publish::{Pressed, press};
pub use site::{Hitch, Site, photo_to_draw};
