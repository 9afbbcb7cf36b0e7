//! A paint near another one, and how near in words.

use std::sync::Arc;

use super::apart::Apart;
use crate::colour::{CLOSE, JUST_SEEN};
use crate::guide::Paint;
use crate::trade::choice;

/// What is further off than this (CIEDE2000) is not near, even if nothing is nearer: another colour by any name. An
/// estimate.
pub const FARTHEST: f64 = 15.0;

choice! {
    /// How near two colours lie, in words.
    Alike, "a nearness" {
        /// Below 1 (CIEDE2000): side by side, hardly anybody sees a difference.
        Same = "same",
        /// Below 5: one passes for the other on models that stand apart.
        Close = "close",
        /// A different colour.
        Different = "different",
        /// By how far it is known it may be close and may be a different colour.
        Guess = "guess",
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

    /// The words for a distance, no finer than it is known.
    pub fn of_apart(apart: &Apart) -> Self {
        // As it is printed, so that word and figure agree.
        let off = apart.off.nine_in_ten.round();
        match Self::of(apart.delta_e) {
            Self::Same | Self::Close if off > CLOSE => Self::Guess,
            Self::Different if off > CLOSE && apart.delta_e - off < CLOSE => Self::Guess,
            Self::Same if !apart.is_fine() => Self::Close,
            alike => alike,
        }
    }

    /// The words themselves, in English.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Same => "can't be told apart",
            Self::Close => "close",
            Self::Different => "a different colour",
            Self::Guess => "a guess",
        }
    }
}

/// A paint near another one.
#[derive(Debug, Clone, PartialEq)]
pub struct Near {
    /// The paint.
    pub paint: Arc<Paint>,
    /// How far its colour lies from the other's; `None` where the two are known by what they do.
    pub apart: Option<Apart>,
}

impl Near {
    /// The distance, in CIEDE2000.
    pub fn delta_e(&self) -> Option<f64> {
        self.apart.map(|apart| apart.delta_e)
    }

    /// Whether it is a different colour, by the likeliest distance: nothing that takes the other's place.
    pub fn is_different(&self) -> bool {
        self.delta_e().map(Alike::of) == Some(Alike::Different)
    }

    /// How near in words, no finer than it is known.
    pub fn alike(&self) -> Option<Alike> {
        self.apart.as_ref().map(Alike::of_apart)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::Uncertainty;

    #[test]
    fn no_word_is_finer_than_the_distance_is_known() {
        let word = |delta_e: f64, nine_in_ten: f64| {
            Alike::of_apart(&Apart { delta_e, off: Uncertainty { median: nine_in_ten / 2.5, nine_in_ten } })
        };
        assert_eq!(word(0.4, 2.0), Alike::Same);
        assert_eq!(word(3.4, 3.0), Alike::Close);
        assert_eq!(word(3.4, 19.0), Alike::Guess);
        assert_eq!(word(0.4, 19.0), Alike::Guess);
        assert_eq!(word(5.6, 27.0), Alike::Guess);
        assert_eq!(word(14.9, 3.0), Alike::Different);
        assert_eq!(word(30.0, 19.0), Alike::Different);
    }
}
