//! What is checked about the bytes of pictures.

use crate::report::{Check, Group, Level};

/// Every check of this layer.
pub const CHECKS: &[&Check] = &[&PICTURE_UNREADABLE, &PICTURE_TOO_LARGE];

/// A picture can be decoded.
pub(crate) static PICTURE_UNREADABLE: Check = Check {
    id: "picture-unreadable",
    level: Level::Error,
    about: "every picture can be read, and is what its name says",
    why: "readers would see a hole",
    group: Group::Links,
    safety: false,
};

/// A picture is of bounded size.
pub(crate) static PICTURE_TOO_LARGE: Check = Check {
    id: "picture-too-large",
    level: Level::Error,
    about: "a picture has at most 50 million pixels and 60 MB",
    why: "a larger one may be made to fill the memory of whoever opens it",
    group: Group::Links,
    safety: false,
};
