//! What is known of a paint before anything is: smooth spectra, and scattering that goes with absorption.

use std::sync::{Arc, LazyLock};

use super::bands::{self, wavelength};
use super::constants::{
    PRIOR_DISPERSION, PRIOR_DISPERSION_BELL, PRIOR_K_LEVEL, PRIOR_K_NOISE, PRIOR_K_SMOOTH, PRIOR_MEAN_K, PRIOR_MEAN_S,
    PRIOR_S_LEVEL, PRIOR_S_NOISE, PRIOR_S_SMOOTH,
};
use super::matrix::{Square, dot};

/// How many numbers describe a paint: ln K in each band, then ln S in each band.
pub(crate) const SIZE: usize = 2 * bands::COUNT;

/// A likely paint and how paints like it differ: y = mean + L·w turns independent standard numbers w into one.
#[derive(Debug, Clone)]
pub(crate) struct Prior {
    /// The mean of ln K and ln S in each band.
    pub(crate) mean: Vec<f64>,
    /// L, row after row, each without the zeros at its end.
    pub(crate) spread: Arc<Vec<Vec<f64>>>,
    /// How many standard numbers there are.
    pub(crate) count: usize,
}

/// A paint of which nothing is known.
pub(crate) static ANY: LazyLock<Prior> = LazyLock::new(|| {
    let lower = covariance().lower();
    let spread = (0..SIZE).map(|at| lower.row(at)[..=at].to_vec()).collect();
    let mean = (0..SIZE).map(|at| if at < bands::COUNT { PRIOR_MEAN_K } else { PRIOR_MEAN_S }).collect();
    Prior { mean, spread: Arc::new(spread), count: SIZE }
});

/// A paint without hue: all bands alike.
pub(crate) static NEUTRAL: LazyLock<Prior> = LazyLock::new(|| {
    let absorbed = PRIOR_K_SMOOTH.0.hypot(PRIOR_K_LEVEL);
    let scattered = PRIOR_S_SMOOTH.0.hypot(PRIOR_S_LEVEL);
    let row = |at: usize| if at < bands::COUNT { vec![absorbed] } else { vec![0.0, scattered] };
    Prior { mean: ANY.mean.clone(), spread: Arc::new((0..SIZE).map(row).collect()), count: 2 }
});

/// Metal flakes: what they absorb is as of any paint, and they send back all light alike, so that a thin coat over black is
/// darker and no other hue.
pub(crate) static FLAKES: LazyLock<Prior> = LazyLock::new(|| {
    let scattered = [vec![0.0; bands::COUNT], vec![PRIOR_S_SMOOTH.0.hypot(PRIOR_S_LEVEL)]].concat();
    let row = |at: usize| if at < bands::COUNT { ANY.spread[at].clone() } else { scattered.clone() };
    Prior { mean: ANY.mean.clone(), spread: Arc::new((0..SIZE).map(row).collect()), count: bands::COUNT + 1 }
});

impl Prior {
    /// The numbers of the paint that these standard numbers stand for: ln K, then ln S in each band.
    pub(crate) fn of(&self, standard: &[f64]) -> Vec<f64> {
        let mut numbers = self.mean.clone();
        for (number, row) in numbers.iter_mut().zip(self.spread.iter()) {
            *number += dot(row, &standard[..row.len()]);
        }
        numbers
    }
}

/// With a = ln K and b = ln S: Cov(b) = own + d²·B·Cov(a)·Bᵀ and Cov(a, b) = d·Cov(a)·Bᵀ, where d is the dispersion
/// and B averages through its bell.
fn covariance() -> Square {
    let count = bands::COUNT;
    let absorbed = Square::new(count, |i, j| together(i, j, PRIOR_K_SMOOTH, PRIOR_K_LEVEL, PRIOR_K_NOISE));
    let bell = Square::new(count, bell);
    let across = Square::new(count, |i, j| PRIOR_DISPERSION * dot(absorbed.row(i), bell.row(j)));
    let from_absorbed = |i: usize, j: usize| {
        let sum: f64 = (0..count).map(|k| bell.row(i)[k] * across.row(k)[j]).sum();
        PRIOR_DISPERSION * sum
    };
    Square::new(SIZE, |i, j| match (i.checked_sub(count), j.checked_sub(count)) {
        (None, None) => absorbed.row(i)[j],
        (None, Some(j)) => across.row(i)[j],
        (Some(i), None) => across.row(j)[i],
        (Some(i), Some(j)) => together(i, j, PRIOR_S_SMOOTH, PRIOR_S_LEVEL, PRIOR_S_NOISE) + from_absorbed(i, j),
    })
}

/// The covariance of two bands: a level in common, a smooth part, and a part of each band's own.
fn together(i: usize, j: usize, (spread, distance): (f64, f64), level: f64, noise: f64) -> f64 {
    let apart = (wavelength(i) - wavelength(j)) / distance;
    let own = if i == j { noise * noise } else { 0.0 };
    spread * spread * (-0.5 * apart * apart).exp() + level * level + own
}

/// How much band `from` counts in the average that band `to` sees; each row adds up to one.
fn bell(to: usize, from: usize) -> f64 {
    let (offset, width) = PRIOR_DISPERSION_BELL;
    let weight = |from: usize| {
        let apart = (wavelength(from) - wavelength(to) - offset) / width;
        (-0.5 * apart * apart).exp()
    };
    weight(from) / (0..bands::COUNT).map(weight).sum::<f64>()
}
