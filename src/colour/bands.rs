//! The bands of the spectrum in which paint is calculated.

use super::constants::{BAND_STEP, FIRST_BAND};

/// How many bands there are: 380 to 730 nm in steps of 10 nm.
pub const COUNT: usize = 36;

/// One number for each band.
pub type Bands = [f64; COUNT];

/// The wavelength in the middle of a band, in nanometres.
pub fn wavelength(band: usize) -> f64 {
    FIRST_BAND + BAND_STEP * band as f64
}

/// One number for each band, from its place.
pub(crate) fn each(of: impl FnMut(usize) -> f64) -> Bands {
    numbers(of)
}

/// So many numbers, each from its place.
// As a loop, of which the compiler works out several at a time; of an array's own makers it does not.
pub(super) fn numbers<const N: usize>(mut of: impl FnMut(usize) -> f64) -> [f64; N] {
    let mut all = [0.0; N];
    for (place, number) in all.iter_mut().enumerate() {
        *number = of(place);
    }
    all
}
