//! Moments and lengths of time of a plan.

/// Seconds: a length of time, or a moment since the midnight before the first day.
pub(super) type Seconds = u64;
