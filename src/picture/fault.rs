//! Why a picture can't be used.

use super::checks;
use crate::report::{Finding, Place};

/// Why a picture can't be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// It can't be decoded, with the reason.
    Unreadable(String),
    /// It is larger than any page needs, with the size.
    TooLarge(String),
}

impl Fault {
    /// The finding at the picture's own file.
    pub(super) fn finding(self, place: Place) -> Finding {
        match self {
            Self::Unreadable(why) => {
                let message = format!("this picture can't be read: {why}");
                Finding::new(&checks::PICTURE_UNREADABLE, place, message, "save it again as JPEG, PNG or WebP")
            }
            Self::TooLarge(message) => Finding::new(
                &checks::PICTURE_TOO_LARGE,
                place,
                message,
                "save a smaller copy; 2000 pixels across are enough",
            ),
        }
    }
}
