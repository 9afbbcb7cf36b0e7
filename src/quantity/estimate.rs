//! A volume that is known within bounds.

use serde::Serialize;

use crate::measure::Millilitres;

/// A predicted volume: what is likely, and what it may be as well.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Estimate {
    /// It may be as little as this.
    pub low: Millilitres,
    /// The figure to work with.
    pub likely: Millilitres,
    /// It may be as much as this.
    pub high: Millilitres,
}

/// Figures are written to two places, so bounds within this share of a volume can't be told from it.
pub(super) const SHOWN: f64 = 0.01;

impl Estimate {
    /// Nothing at all.
    pub const NONE: Self = Self { low: Millilitres(0.0), likely: Millilitres(0.0), high: Millilitres(0.0) };

    /// A likely volume that may be off by a factor up or down; a factor below one counts as one.
    pub fn within(likely: Millilitres, spread: f64) -> Self {
        let spread = spread.max(1.0);
        Self { low: Millilitres(likely.0 / spread), likely, high: Millilitres(likely.0 * spread) }
    }

    /// A lot that is mixed for this need: what may be needed are its bounds, but less than the least that keeps its ratio is
    /// never mixed. A lot that is that least, and more than may be needed, has no bounds at all.
    #[must_use]
    pub fn of_lot(self, lot: Millilitres, least: Millilitres) -> Self {
        let (low, high) = (self.low.0.max(least.0).min(lot.0), self.high.0.max(lot.0));
        Self { low: Millilitres(low), likely: lot, high: Millilitres(high) }
    }

    /// Whether it may be less or more by so much that it shows.
    pub fn is_open(&self) -> bool {
        self.high.0 - self.low.0 > SHOWN * self.likely.0
    }

    /// So many times this, or a share of it.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        let times = |volume: Millilitres| Millilitres(volume.0 * factor);
        Self { low: times(self.low), likely: times(self.likely), high: times(self.high) }
    }
}

/// Estimates of one bench are off the same way, so their bounds add up as they are.
impl std::ops::Add for Estimate {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        let add = |one: Millilitres, two: Millilitres| Millilitres(one.0 + two.0);
        Self { low: add(self.low, other.low), likely: add(self.likely, other.likely), high: add(self.high, other.high) }
    }
}

impl std::iter::Sum for Estimate {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::NONE, |sum, one| sum + one)
    }
}

/// As `{"low": …, "likely": …, "high": …}`, in millilitres, to a thousandth.
impl Serialize for Estimate {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        use serde::ser::SerializeStruct;

        let thousandths = |volume: Millilitres| (volume.0 * 1000.0).round() / 1000.0;
        let mut written = serializer.serialize_struct("Estimate", 3)?;
        written.serialize_field("low", &thousandths(self.low))?;
        written.serialize_field("likely", &thousandths(self.likely))?;
        written.serialize_field("high", &thousandths(self.high))?;
        written.end()
    }
}

/// How far a product of figures may be off: their factors, combined by the squares of their logarithms, because
/// figures that rest on different things are seldom all off the same way.
pub(super) fn pooled(spreads: impl IntoIterator<Item = f64>) -> f64 {
    spreads.into_iter().map(|spread| spread.clamp(1.0, 1000.0).ln().powi(2)).sum::<f64>().sqrt().exp()
}
