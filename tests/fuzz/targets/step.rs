//! Bytes as one whole step: read, resolved, worked out, and every page made.

use super::guide::{look, small};

/// Makes a guide with the step.
///
/// # Panics
/// Where the program breaks a promise.
pub fn run(data: &[u8]) {
    look(&small().with("content/schemes/warden/20-more.md", data), |_| true);
}
