//! Bytes as a range of paints which steps use.

use super::guide::{look, small};

/// Makes a guide with the paints.
///
/// # Panics
/// Where the program breaks a promise.
pub fn run(data: &[u8]) {
    look(&small().with("content/paints/mere.yaml", data), |path| {
        path.starts_with("paints") || path == "schemes/warden.html" || path.starts_with("armies")
    });
}
