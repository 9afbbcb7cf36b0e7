//! Which known pigments a paint may be made of, weighed by all that is known of it; and what follows for the fit.
//!
//! Each recipe that may be the paint's stands for a cloud of paints: its strength is free, and its spectra may wander
//! a little and smoothly. The likeliest paint of each cloud is found by a few steps of Gauss and Newton, and the cloud
//! is weighed by how well it explains what is known (Laplace's approximation of the evidence). The weighed mean of all,
//! with what they differ in, is the prior of the last fit.

use std::f64::consts::PI;
use std::sync::LazyLock;

use super::bands;
use super::candidates::{Chosen, Library};
use super::constants::{KNOWN_K_REST, KNOWN_S_REST, KNOWN_STRENGTH};
use super::estimate::{self, Fit};
use super::matrix::{Square, dot};
use super::observation::Observation;
use super::prior::{self, Prior, SIZE};
use super::surface::Surface;

/// So many recipes are weighed: with more, no measured paint is predicted better.
const WEIGHED: usize = 48;

/// So many of these are followed to their likeliest paint; the others weigh as they are after one step.
const FOLLOWED: usize = 14;

/// Steps towards the likeliest paint of a recipe, beyond the first.
const STEPS: usize = 2;

/// Where the best recipe misses by more than this (squared standard deviations), a paint of something unknown is weighed
/// too.
const EXPLAINED: f64 = 8.0;

/// How likely a paint is of something unknown before it is seen.
const UNKNOWN: f64 = 0.1;

/// Waves of which the wandering of ln K and of ln S is made.
const WAVES: (usize, usize) = (9, 7);

/// One cloud, weighed.
struct Weighed {
    /// The likeliest paint: ln K, then ln S.
    logs: Vec<f64>,
    /// The logarithm of its weight.
    weight: f64,
    /// How far it misses what is known, in squared standard deviations.
    miss: f64,
}

/// How paints of one recipe differ: strength, then slow waves of ln K, then of ln S. Row after row.
static REST: LazyLock<Vec<Vec<f64>>> = LazyLock::new(|| {
    let absorbed = waves(KNOWN_K_REST, WAVES.0);
    let scattered = waves(KNOWN_S_REST, WAVES.1);
    let none = |count: usize| vec![0.0; count];
    let row = |at: usize| match at.checked_sub(bands::COUNT) {
        None => [vec![KNOWN_STRENGTH], absorbed[at].clone(), none(WAVES.1)].concat(),
        Some(band) => [vec![KNOWN_STRENGTH], none(WAVES.0), scattered[band].clone()].concat(),
    };
    (0..SIZE).map(row).collect()
});

/// A smooth curve's waves in each band: it has this standard deviation, and holds together over this distance.
pub(crate) fn waves((spread, distance): (f64, f64), count: usize) -> Vec<Vec<f64>> {
    let width = bands::wavelength(bands::COUNT) - bands::wavelength(0);
    let strength = |wave: usize| (-(PI * wave as f64 * distance / width).powi(2) / 4.0).exp();
    let all: f64 = 1.0 + (1..count).map(|wave| strength(wave).powi(2)).sum::<f64>();
    let of = |band: usize, wave: usize| {
        let turn = PI * wave as f64 * (band as f64 + 0.5) / bands::COUNT as f64;
        let height = if wave == 0 { 1.0 } else { 2.0_f64.sqrt() };
        spread * strength(wave) * height * turn.cos() / all.sqrt()
    };
    (0..bands::COUNT).map(|band| (0..count).map(|wave| of(band, wave)).collect()).collect()
}

/// The likeliest paint for what is known, if it is made of known pigments or of something like them.
pub(crate) fn fit(library: &Library, known: &[Observation], surface: Surface, named: &[String]) -> (Prior, Fit) {
    let chosen = library.choose(known, surface, named, WEIGHED);
    let mut clouds: Vec<Cloud> = chosen.iter().map(|one| Cloud::of(library, one, known, surface)).collect();
    clouds.sort_by(|a, b| b.weight().total_cmp(&a.weight()));
    clouds.iter_mut().take(FOLLOWED).for_each(|cloud| cloud.follow(known, surface));
    let mut weighed: Vec<Weighed> = clouds.iter().map(Cloud::weighed).collect();
    let best = weighed.iter().map(|one| one.miss).fold(f64::INFINITY, f64::min);
    if best > EXPLAINED {
        weighed.push(unknown(known, surface));
    }
    let prior = prior_of(&weighed);
    let fit = estimate::likeliest(&prior, known, surface);
    (prior, fit)
}

/// A recipe, the paints that are like it, and the one of them that is found so far.
struct Cloud {
    prior: Prior,
    likely: f64,
    fit: Fit,
}

impl Cloud {
    fn of(library: &Library, one: &Chosen, known: &[Observation], surface: Surface) -> Self {
        let depths = library.depths(&one.recipe);
        let log = |depth: &f64| depth.max(1e-6).ln();
        let mean = depths.absorbed.iter().chain(&depths.scattered).map(log).collect();
        let prior = Prior { mean, spread: REST.clone(), count: 1 + WAVES.0 + WAVES.1 };
        let mut start = vec![0.0; prior.count];
        if let Some(strength) = start.first_mut() {
            *strength = one.strength / KNOWN_STRENGTH;
        }
        let fit = estimate::nearly(&prior, start, known, surface, 1);
        Self { prior, likely: one.recipe.likely, fit }
    }

    fn follow(&mut self, known: &[Observation], surface: Surface) {
        self.fit = estimate::nearly(&self.prior, self.fit.standard.clone(), known, surface, STEPS);
    }

    fn weight(&self) -> f64 {
        evidence(&self.fit) + self.likely
    }

    fn weighed(&self) -> Weighed {
        Weighed { weight: self.weight(), miss: self.fit.cost, logs: self.fit.logs(&self.prior) }
    }
}

fn unknown(known: &[Observation], surface: Surface) -> Weighed {
    let fit = estimate::likeliest(&prior::ANY, known, surface);
    let share = UNKNOWN / (1.0 - UNKNOWN);
    // Recipes are as likely as their number says; all together they weigh some five hundred pigments alone.
    Weighed { weight: evidence(&fit) + (share * RECIPES).ln(), miss: fit.cost, logs: fit.logs(&prior::ANY) }
}

/// What all recipes together weigh, in pigments alone.
const RECIPES: f64 = 500.0;

/// The logarithm of how likely what is known would be.
fn evidence(fit: &Fit) -> f64 {
    let slopes = &fit.slopes;
    let small = Square::new(slopes.len(), |i, j| dot(&slopes[i], &slopes[j]) + if i == j { 1.0 } else { 0.0 });
    -0.5 * fit.cost - small.lower().log_diagonal()
}

/// The weighed mean, with what the recipes differ in and what each leaves open.
fn prior_of(weighed: &[Weighed]) -> Prior {
    let most = weighed.iter().map(|one| one.weight).fold(f64::NEG_INFINITY, f64::max);
    let shares: Vec<f64> = weighed.iter().map(|one| (one.weight - most).exp()).collect();
    let all: f64 = shares.iter().sum();
    if weighed.is_empty() || !all.is_finite() {
        return prior::ANY.clone();
    }
    let mean: Vec<f64> =
        (0..SIZE).map(|at| weighed.iter().zip(&shares).map(|(one, share)| share / all * one.logs[at]).sum()).collect();
    let counts: Vec<(&Weighed, f64)> = weighed
        .iter()
        .zip(&shares)
        .map(|(one, share)| (one, (share / all).sqrt()))
        .filter(|(_, root)| *root > 0.01)
        .collect();
    let row = |at: usize| {
        let apart = counts.iter().map(|(one, root)| root * (one.logs[at] - mean[at]));
        REST[at].iter().copied().chain(apart).collect()
    };
    let spread: Vec<Vec<f64>> = (0..SIZE).map(row).collect();
    Prior { count: spread.first().map_or(0, Vec::len), mean, spread }
}
