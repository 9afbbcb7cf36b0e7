//! Which known pigments a paint may be made of, weighed by all that is known of it; and what follows for the fit.
//!
//! Each recipe that may be the paint's stands for a cloud of paints: its strength is free, and so is how finely it is
//! ground, and its spectra may wander a little and smoothly. Where films are known, a recipe stands for several clouds, each
//! around one strength: a film that hides tells only that a paint is at least so strong. The likeliest paint of each cloud is found by a few steps of Gauss and Newton, and the cloud
//! is weighed by how well it explains what is known (Laplace's approximation of the evidence). The weighed mean of all,
//! with what they differ in, is the prior of the last fit.

use std::f64::consts::PI;
use std::sync::{Arc, LazyLock};

use super::bands;
use super::candidates::{Chosen, Library, Made};
use super::constants::{KNOWN_K_REST, KNOWN_S_LEVEL, KNOWN_S_REST, KNOWN_STRENGTH, NAMED_RESTS, TRIED_STRENGTH};
use super::estimate::{self, Fit};
use super::matrix::{Square, dot};
use super::observation::Observation;
use super::prior::{self, Prior, SIZE};
use super::surface::Surface;

/// So many recipes are weighed: with more, no measured paint is predicted better.
const WEIGHED: usize = 20;

/// So many of these are followed to their likeliest paint; the others weigh as they are after one step.
const FOLLOWED: usize = 5;

/// Steps towards the likeliest paint of a recipe, beyond the first.
const STEPS: usize = 2;

/// Where the best recipe misses by more than this (squared standard deviations), a paint of something unknown is weighed
/// too.
const EXPLAINED: f64 = 8.0;

/// How likely a paint is of something unknown before it is seen.
const UNKNOWN: f64 = 0.03;

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

/// How many standard numbers describe how paints of one recipe differ.
const OPEN: usize = 2 + WAVES.0 + WAVES.1;

/// How paints of one recipe differ: strength, how finely it is ground, then slow waves of ln K, then of ln S.
type Rest = Arc<Vec<Vec<f64>>>;

/// Where nothing tells their strength, and around one of the strengths that are tried; each for a recipe that is guessed and
/// for one of pigments that are named.
static RESTS: LazyLock<[[Rest; 2]; 2]> = LazyLock::new(|| {
    [KNOWN_STRENGTH, TRIED_STRENGTH]
        .map(|strength| [(KNOWN_S_LEVEL, KNOWN_K_REST, KNOWN_S_REST), NAMED_RESTS].map(|open| rest(strength, open)))
});

/// Row after row.
fn rest(strength: f64, (level, absorbed, scattered): (f64, (f64, f64), (f64, f64))) -> Rest {
    let absorbed = waves(absorbed, WAVES.0);
    let scattered = waves(scattered, WAVES.1);
    let none = |count: usize| vec![0.0; count];
    let row = |at: usize| match at.checked_sub(bands::COUNT) {
        None => [vec![strength, 0.0], absorbed[at].clone(), none(WAVES.1)].concat(),
        Some(band) => [vec![strength, level], none(WAVES.0), scattered[band].clone()].concat(),
    };
    Arc::new((0..SIZE).map(row).collect())
}

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
pub(crate) fn fit(library: &Library, known: &[Observation], surface: Surface, made: Made<'_>) -> (Prior, Fit) {
    let chosen = library.choose(known, surface, made, WEIGHED);
    let tried = chosen.iter().any(|one| one.strength.is_some());
    let rest = &RESTS[usize::from(tried)][usize::from(library.knows(made.of))];
    let cloud = |one: &Chosen| {
        let cloud = Cloud::of((library, rest), one, known, surface);
        (cloud.weight(), cloud)
    };
    let mut clouds: Vec<(f64, Cloud)> = chosen.iter().map(cloud).collect();
    clouds.sort_by(|(a, _), (b, _)| b.total_cmp(a));
    for (weight, cloud) in clouds.iter_mut().take(FOLLOWED) {
        cloud.follow(known, surface);
        *weight = cloud.weight();
    }
    let mut weighed: Vec<Weighed> = clouds.iter().map(|(weight, cloud)| cloud.weighed(*weight)).collect();
    let best = weighed.iter().map(|one| one.miss).fold(f64::INFINITY, f64::min);
    if best > EXPLAINED {
        weighed.push(unknown(known, surface));
    }
    let prior = prior_of(&weighed, rest);
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
    fn of((library, rest): (&Library, &Rest), one: &Chosen, known: &[Observation], surface: Surface) -> Self {
        let depths = library.depths(&one.recipe);
        let strength = one.strength.unwrap_or_default();
        let log = |depth: &f64| depth.max(1e-6).ln() + strength;
        let mean = depths.absorbed.iter().chain(&depths.scattered).map(log).collect();
        let prior = Prior { mean, spread: Arc::clone(rest), count: OPEN };
        let fit = estimate::nearly(&prior, vec![0.0; OPEN], known, surface, 1);
        Self { prior, likely: one.likely(), fit }
    }

    fn follow(&mut self, known: &[Observation], surface: Surface) {
        self.fit = estimate::nearly(&self.prior, self.fit.standard.clone(), known, surface, STEPS);
    }

    fn weight(&self) -> f64 {
        evidence(&self.fit) + self.likely
    }

    fn weighed(&self, weight: f64) -> Weighed {
        Weighed { weight, miss: self.fit.cost, logs: self.fit.logs(&self.prior) }
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
    let small = Square::symmetric(slopes.len(), |i, j| dot(&slopes[i], &slopes[j]) + if i == j { 1.0 } else { 0.0 });
    -0.5 * fit.cost - small.lower().log_diagonal()
}

/// The weighed mean, with what the recipes differ in and what each leaves open.
fn prior_of(weighed: &[Weighed], rest: &[Vec<f64>]) -> Prior {
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
        rest[at].iter().copied().chain(apart).collect()
    };
    let spread: Vec<Vec<f64>> = (0..SIZE).map(row).collect();
    Prior { count: spread.first().map_or(0, Vec::len), mean, spread: Arc::new(spread) }
}
