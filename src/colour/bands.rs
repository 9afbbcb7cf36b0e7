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
// As a loop, which the compiler works out several bands of at a time; from an array's own makers it does not.
pub(crate) fn each(mut of: impl FnMut(usize) -> f64) -> Bands {
    let mut bands = [0.0; COUNT];
    for (band, number) in bands.iter_mut().enumerate() {
        *number = of(band);
    }
    bands
}

/// The sum of the products, from the first band to the last.
pub(crate) fn dot(a: &Bands, b: &Bands) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
