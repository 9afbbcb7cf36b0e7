//! The units that the film counts in.

use crate::measure::Time;

/// A stretch of time, or a moment since the first step began, in minutes.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Minutes(pub f64);

/// Above this nobody waits by the hour, in minutes.
const TWO_DAYS: f64 = 2880.0;

/// A film's thickness in thousandths of a millimetre.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Micrometres(pub f64);

/// How a film shines: gloss units at 60 degrees (ISO 2813), below 10 matt, above 70 gloss.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Gloss(pub f64);

impl Minutes {
    /// So many times this stretch.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }

    /// The longer of two stretches, or the later of two moments.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// The shorter of two stretches, or the earlier of two moments.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    /// A stretch no finer than anybody waits, rounded up: whole minutes as they are up to two days; else minutes below a
    /// quarter of an hour, then five minutes, quarters, hours, and whole days above two.
    #[must_use]
    pub fn to_be_written(self) -> Self {
        let whole = self.0.round();
        if whole <= TWO_DAYS && (self.0 - whole).abs() < 1e-6 { Self(whole) } else { self.roughly() }
    }

    /// A stretch that is a prediction alone, no finer than anybody waits, rounded up, whole minutes too.
    #[must_use]
    pub fn roughly(self) -> Self {
        let step = match self.0 {
            minutes if minutes <= 15.0 => 1.0,
            minutes if minutes <= 120.0 => 5.0,
            minutes if minutes <= 720.0 => 15.0,
            minutes if minutes <= TWO_DAYS => 60.0,
            _ => 1440.0,
        };
        Self((self.0 / step - 1e-9).ceil() * step)
    }

    /// As a time of whole seconds; what lies in the past counts as no time at all.
    pub fn as_time(self) -> Time {
        let seconds = (self.0 * 60.0).round().clamp(0.0, f64::from(u32::MAX));
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "rounded and clamped to 0 ..= u32::MAX"
        )]
        Time::seconds(seconds as u32)
    }
}

impl From<Time> for Minutes {
    fn from(time: Time) -> Self {
        Self(time.as_minutes())
    }
}

impl std::ops::Add for Minutes {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl std::ops::Sub for Minutes {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_predicted_is_told_as_finely_as_anybody_waits() {
        for (minutes, written) in [
            (7.0, 7.0),
            (7.2, 8.0),
            (44.1, 45.0),
            (2.0 * 1440.0, 2.0 * 1440.0),
            (2.0 * 1440.0 + 1.0, 3.0 * 1440.0),
            (84.0 * 60.0, 4.0 * 1440.0),
            (3.0 * 1440.0, 3.0 * 1440.0),
            (47.0 * 60.0 + 0.5, 48.0 * 60.0),
        ] {
            assert_eq!(Minutes(minutes).to_be_written(), Minutes(written), "{minutes}");
        }
    }
}
