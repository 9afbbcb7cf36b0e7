//! Bytes as one whole step: read, resolved, worked out, and every page made.

use super::guide::{look, small};

/// Makes a guide with the step.
///
/// The link pictures, the printed card and the coloured source take nine tenths of the time and show little that the
/// pages don't: one input in sixteen makes them as well, so that the others are many.
///
/// # Panics
/// Where the program breaks a promise.
pub fn run(data: &[u8]) {
    let all = data.len().is_multiple_of(16);
    let dear = |path: &str| matches!(path.rsplit_once('.'), Some((_, "png" | "pdf"))) || path.ends_with("/source.html");
    look(&small().with("content/schemes/warden/20-more.md", data), |path| {
        !path.starts_with("theme/") && (all || !dear(path))
    });
}
