//! Why a picture can't be used.

use image::ImageError;
use image::error::LimitErrorKind;

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
    /// What a decoder found, in an author's words.
    pub(super) fn of(error: &ImageError) -> Self {
        let why = match error {
            ImageError::Decoding(_) => "it breaks off, or something in it is damaged",
            ImageError::Limits(limits) if limits.kind() == LimitErrorKind::InsufficientMemory => {
                "what is in it takes more memory than a picture may"
            }
            ImageError::Limits(_) => "it is larger than a picture may be",
            ImageError::Unsupported(_) => "it is of a sort that is not known here",
            ImageError::IoError(_) => "its end is missing",
            ImageError::Encoding(_) | ImageError::Parameter(_) => "it can't be saved in another size",
        };
        Self::Unreadable(why.to_owned())
    }

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
