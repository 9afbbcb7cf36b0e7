//! A paint near another one, and how near in words.

use std::sync::Arc;

use crate::colour::{CLOSE, JUST_SEEN};
use crate::guide::Paint;
use crate::trade::choice;

choice! {
    /// How near two colours lie, in words.
    Alike, "a nearness" {
        /// Below 1 (CIEDE2000): side by side, hardly anybody sees a difference.
        Same = "same",
        /// Below 5: one passes for the other on models that stand apart.
        Close = "close",
        /// A different colour.
        Different = "different",
    }
}

impl Alike {
    /// The words for a difference in CIEDE2000.
    pub fn of(delta_e: f64) -> Self {
        if delta_e < JUST_SEEN {
            Self::Same
        } else if delta_e < CLOSE {
            Self::Close
        } else {
            Self::Different
        }
    }

    /// The words themselves, in English.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Same => "can't be told apart",
            Self::Close => "close",
            Self::Different => "a different colour",
        }
    }
}

/// A paint near another one.
#[derive(Debug, Clone, PartialEq)]
pub struct Near {
    /// The paint.
    pub paint: Arc<Paint>,
    /// How far its colour lies from the other's, in CIEDE2000; `None` where the two are known by what they do.
    pub delta_e: Option<f64>,
}

impl Near {
    /// How near in words.
    pub fn alike(&self) -> Option<Alike> {
        self.delta_e.map(Alike::of)
    }
}
