//! What is said to the author: checks, findings and their places. Every layer reports through this one;
//! how a finding is shown is the printers' business.

mod brief;
mod check;
mod excerpt;
mod files;
mod finding;
mod findings;
mod folded;
mod json;
mod lines;
mod place;
mod registry;
#[cfg(test)]
mod sample;
mod sarif;
mod text;
mod visible;
pub mod wording;

pub use brief::brief;
pub use check::{Check, Group, Level};
pub use files::Files;
pub use finding::{Finding, OfVersion, Related, Role};
pub use findings::{Counts, Findings};
pub use json::{json, shown as json_text};
pub use place::{FileId, Place, Placed};
pub use registry::Registry;
pub use sarif::sarif;
pub use text::{TextStyle, text};
pub(crate) use visible::visible;
pub use visible::visible_line;
