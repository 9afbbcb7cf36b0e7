//! **Render**: pictures of a model in the colours that its film has, drawn in the light booth and packed.
//!
//! What only the mesh and the view decide is baked once and kept; a picture is then a shading of it. Both are known by the
//! hash of what they show, so that an edit draws again only what it changed.

mod sitter;
mod studio;

pub use sitter::Sitter;
pub use studio::{Cut, Studio};
