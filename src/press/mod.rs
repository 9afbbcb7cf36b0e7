//! **Press**: templates, pictures and data files become the published folder, as one change.

mod engine;
mod linked;
mod publish;
mod single;
mod singles;
mod version;

pub use publish::{Job, Pressed, Progress, press};
