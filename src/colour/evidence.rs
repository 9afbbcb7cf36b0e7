//! What a prediction rests on, and how far such predictions were off when they were tried against measured paint.

use super::constants::{CLOSE, HALF_WITHIN, NAMED_ALIKE, NINE_IN_TEN, STATED_IS_OFF, THEORY_IS_OFF};
use crate::trade::choice;

/// What is known of a paint's strength, the weakest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Evidence {
    /// Its colour and its hiding class alone.
    Class,
    /// Brush-outs of two or more coat counts over white.
    CoatCounts,
    /// Brush-outs over black and over white.
    BlackAndWhite,
    /// A tint with a known white.
    Tint,
}

/// How far a predicted colour may be off, in CIEDE2000.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uncertainty {
    /// Half of the predictions were nearer than this.
    pub median: f64,
    /// Nine in ten were nearer than this.
    pub nine_in_ten: f64,
}

choice! {
    /// How sure a predicted colour is, in words.
    Sureness, "a sureness" {
        /// In nine cases of ten it passes for the real one.
        Surely = "surely",
        /// In nine cases of ten it is still called by the same name.
        About = "about",
        /// It may be another colour.
        Guess = "guess",
    }
}

impl Uncertainty {
    /// From how far paints that stand for all lie from the likeliest, as the root of their mean square.
    ///
    /// On measured films that were left out of what was learnt, the medians held half of the cases and the nine in ten
    /// nine in ten (`tests/colour/measured.rs`).
    pub(crate) fn of_spread(spread: f64) -> Self {
        let all = spread.hypot(THEORY_IS_OFF);
        Self { median: HALF_WITHIN * all, nine_in_ten: NINE_IN_TEN * all }
    }

    /// That of a colour that somebody states.
    pub const STATED: Self = Self { median: STATED_IS_OFF.0, nine_in_ten: STATED_IS_OFF.1 };

    /// Of nothing that is in doubt.
    pub const NONE: Self = Self { median: 0.0, nine_in_ten: 0.0 };

    /// That of a distance between two colours that err independently.
    #[must_use]
    pub fn between(self, other: Self) -> Self {
        Self { median: self.median.hypot(other.median), nine_in_ten: self.nine_in_ten.hypot(other.nine_in_ten) }
    }

    /// The larger of two.
    #[must_use]
    pub fn or_more(self, other: Self) -> Self {
        if other.nine_in_ten > self.nine_in_ten { other } else { self }
    }

    /// How sure that is, in words.
    pub fn sureness(self) -> Sureness {
        // As it is printed, so that word and figure agree.
        match self.nine_in_ten.round() {
            off if off <= CLOSE => Sureness::Surely,
            off if off <= NAMED_ALIKE => Sureness::About,
            _ => Sureness::Guess,
        }
    }
}

impl Evidence {
    /// All of them, the weakest first.
    pub const ALL: &[Self] = &[Self::Class, Self::CoatCounts, Self::BlackAndWhite, Self::Tint];

    /// A short name, for words and pages.
    pub fn name(self) -> &'static str {
        match self {
            Self::Class => "class",
            Self::CoatCounts => "coat-counts",
            Self::BlackAndWhite => "black-and-white",
            Self::Tint => "tint",
        }
    }

    /// How far a prediction with this evidence may be off; `tint`: where it is of one paint with white.
    ///
    /// Rounded up from the worst group of films in EVIDENCE.md, each paint left out of what was learnt; for coats over white
    /// alone from an earlier trial on watercolours. Nothing of this is measured for coloured grounds, clears over metal,
    /// washes, airbrush, drybrush and varnish.
    pub fn uncertainty(self, tint: bool) -> Uncertainty {
        let (median, nine_in_ten) = match (self, tint) {
            (Self::Class, _) => (16.0, 32.0),
            (Self::CoatCounts, _) => (8.0, 17.0),
            (Self::BlackAndWhite, _) => (8.0, 19.0),
            (Self::Tint, true) => (4.0, 13.0),
            (Self::Tint, false) => (6.0, 16.0),
        };
        Uncertainty { median, nine_in_ten }
    }

    /// The weaker of two; what needs no evidence does not count.
    pub(crate) fn weaker(a: Option<Self>, b: Option<Self>) -> Option<Self> {
        match (a, b) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (one, other) => one.or(other),
        }
    }
}
