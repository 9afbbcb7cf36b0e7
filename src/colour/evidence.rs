//! What a prediction rests on, and how far such predictions were off when they were tried against measured paint.

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
    /// Rounded up from trials on measured acrylic, watercolour and oil films over black and white, each paint left out of
    /// what was learnt. Nothing of this is measured for coloured grounds, clears over metal, washes, airbrush, drybrush
    /// and varnish.
    pub fn uncertainty(self, tint: bool) -> Uncertainty {
        let (median, nine_in_ten) = match (self, tint) {
            (Self::Class, _) => (15.0, 28.0),
            (Self::CoatCounts, _) => (8.0, 17.0),
            (Self::BlackAndWhite, _) => (10.0, 27.0),
            (Self::Tint, true) => (3.0, 7.0),
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
