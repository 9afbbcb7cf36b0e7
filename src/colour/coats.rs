//! How many coats: to hide what lies beneath, and until one more can't be seen.

use super::constants::{HIDES, JUST_SEEN, MOST_COATS};
use super::mixture::Mixture;
use super::space;
use super::stack::Stack;

/// How many coats of a mix it takes to hide black and white (a contrast ratio of 0.98, ISO 6504-3), each of `nominal`
/// nominal coats. `None`: more than anybody lays.
pub fn coats_to_hide(mixture: &Mixture, nominal: f64) -> Option<u32> {
    let hides = |coats: u32| mixture.contrast_ratio(f64::from(coats) * nominal) >= HIDES;
    if !hides(MOST_COATS) {
        return None;
    }
    // Every coat hides a little more, so halving the range finds the first that hides.
    let (mut shows, mut hidden) = (0, MOST_COATS);
    while hidden - shows > 1 {
        let middle = u32::midpoint(shows, hidden);
        if hides(middle) { hidden = middle } else { shows = middle }
    }
    Some(hidden)
}

/// After how many coats one more moves the colour by less than 1 (CIEDE2000), each of `nominal` nominal coats; nought
/// where already the first one can't be seen. `None`: it still changes after more than anybody lays.
pub fn coats_that_show(beneath: &Stack, mixture: &Mixture, nominal: f64) -> Option<u32> {
    (0..MOST_COATS).find(|coats| {
        let after = |coats: u32| beneath.lay(mixture, f64::from(coats) * nominal).lab();
        space::lab_difference(after(*coats), after(coats + 1)) < JUST_SEEN
    })
}

/// What lies there after each coat, from none to `most`, each of `nominal` nominal coats.
pub fn ladder(beneath: &Stack, mixture: &Mixture, nominal: f64, most: u32) -> Vec<Stack> {
    (0..=most).map(|coats| beneath.lay(mixture, f64::from(coats) * nominal)).collect()
}
