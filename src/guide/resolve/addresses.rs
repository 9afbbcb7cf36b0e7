//! What the address of a link begins and ends with.

/// What comes before the colon, if it can be the kind of an address.
pub(super) fn scheme_of(url: &str) -> Option<&str> {
    let (kind, _) = url.trim_start().split_once(':')?;
    let plain = |c: char| c.is_ascii_alphanumeric() || "+.-".contains(c);
    (!kind.is_empty() && kind.chars().all(plain)).then_some(kind)
}

/// The endings of files that readers may be handed as they are: nothing among them runs in a browser.
pub(super) const HANDED_ON: &[&str] =
    &["pdf", "txt", "csv", "zip", "stl", "obj", "jpg", "jpeg", "png", "webp", "mp4", "webm"];
