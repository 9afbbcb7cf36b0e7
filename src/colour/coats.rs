//! How many coats: to hide what lies beneath, and until one more can't be seen.

use super::constants::{HIDES, MOST_COATS};
use super::contrast;
use super::mixture::Mixture;
use super::stack::Stack;

/// How many coats of a mix it takes to hide black and white (a contrast ratio of 0.98, ISO 6504-3), each of `nominal`
/// nominal coats. `None`: more than anybody lays.
pub fn coats_to_hide(mixture: &Mixture, nominal: f64) -> Option<u32> {
    contrast::first(|coats| mixture.contrast_ratio(f64::from(coats) * nominal) >= HIDES)
}

/// The fewest and the most coats that may be needed for that, by what is in doubt of the mix; the most is `None` where
/// that is more than anybody lays.
pub fn coats_to_hide_between(mixture: &Mixture, nominal: f64) -> (u32, Option<u32>) {
    if let Some(doubt) = &mixture.doubt {
        return doubt.coats_to_hide(nominal);
    }
    let coats = coats_to_hide(mixture, nominal);
    (coats.unwrap_or(MOST_COATS + 1), coats)
}

/// What lies there after each coat, from none to `most`, each of `nominal` nominal coats.
pub fn ladder(beneath: &Stack, mixture: &Mixture, nominal: f64, most: u32) -> Vec<Stack> {
    (0..=most).map(|coats| beneath.lay(mixture, f64::from(coats) * nominal)).collect()
}
