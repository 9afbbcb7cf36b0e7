//! The one estimator: the likeliest paint, given everything that an author says about it.
//!
//! Unknown are ln K and ln S of a nominal coat in each band, with a prior. The sum of the squared
//! residuals and of the squared standard numbers is brought to its least by Levenberg's and Marquardt's method. There
//! are few residuals and many unknowns, so each step solves the small system: with J the slopes by the standard
//! numbers, `(JᵀJ + cI)⁻¹g = (g − Jᵀ(JJᵀ + cI)⁻¹Jg) / c` (Woodbury).

use super::bands;
use super::constants::LOG_DEPTH_RANGE;
use super::depths::Depths;
use super::matrix::{Square, add_times, dot};
use super::observation::{Observation, Residual};
use super::prior::{self, Prior};
use super::surface::Surface;

/// Steps at most; a dozen or two are usual.
const MOST_STEPS: usize = 120;

/// It ends when no standard number moves by more than this.
const SETTLED: f64 = 1e-9;

/// It ends when the cost changes by no more than this part of it: what is left is rounding.
const ROUNDING: f64 = 1e-14;

/// The depths of a nominal coat of the likeliest paint of which nothing else is known.
pub fn depths(observations: &[Observation], surface: Surface) -> Depths {
    likeliest(&prior::ANY, observations, surface).depths
}

/// A paint that was found, and what was found out on the way.
#[derive(Debug, Clone)]
pub(crate) struct Fit {
    /// Of a nominal coat.
    pub(crate) depths: Depths,
    /// Its standard numbers.
    pub(crate) standard: Vec<f64>,
    /// The slope of each residual by each of them.
    pub(crate) slopes: Vec<Vec<f64>>,
    /// The squared residuals and standard numbers, all together.
    pub(crate) cost: f64,
}

impl Fit {
    /// ln K and ln S.
    pub(crate) fn logs(&self, prior: &Prior) -> Vec<f64> {
        prior.of(&self.standard)
    }

    fn of(at: Point, slopes: Vec<Vec<f64>>) -> Self {
        Self { depths: at.depths, standard: at.standard, slopes, cost: at.cost }
    }
}

/// The likeliest paint of a sort.
pub(crate) fn likeliest(prior: &Prior, observations: &[Observation], surface: Surface) -> Fit {
    let known = Known { prior, observations, surface };
    let mut at = Point::new(vec![0.0; prior.count], known);
    let mut damping = 1e-2;
    let mut slopes = at.slopes(prior);
    for _ in 0..MOST_STEPS {
        let step = step(&at, &slopes, damping);
        let next = Point::new(moved(&at.standard, &step, 1.0), known);
        let settled = step.iter().all(|step| step.abs() < SETTLED) || (next.cost - at.cost).abs() <= ROUNDING * at.cost;
        if next.cost < at.cost {
            at = next;
            slopes = at.slopes(prior);
            damping /= 5.0;
        } else {
            damping *= 4.0;
        }
        if settled {
            break;
        }
    }
    Fit::of(at, slopes)
}

/// The likeliest paint of a sort after so many plain steps from a guess, none longer than one standard deviation.
pub(crate) fn nearly(
    prior: &Prior,
    guess: Vec<f64>,
    observations: &[Observation],
    surface: Surface,
    steps: usize,
) -> Fit {
    let known = Known { prior, observations, surface };
    let mut at = Point::new(guess, known);
    let mut slopes = at.slopes(prior);
    for _ in 0..steps {
        let step = step(&at, &slopes, 0.0);
        let longest = step.iter().fold(1.0_f64, |most, step| most.max(step.abs()));
        at = Point::new(moved(&at.standard, &step, 1.0 / longest), known);
        slopes = at.slopes(prior);
    }
    Fit::of(at, slopes)
}

fn moved(from: &[f64], step: &[f64], part: f64) -> Vec<f64> {
    from.iter().zip(step).map(|(from, step)| from + part * step).collect()
}

/// What a fit rests on.
#[derive(Clone, Copy)]
struct Known<'a> {
    prior: &'a Prior,
    observations: &'a [Observation],
    surface: Surface,
}

/// One guess with everything that follows from it.
struct Point {
    /// The standard numbers w.
    standard: Vec<f64>,
    /// Which of ln K and ln S were cut to their range.
    cut: Vec<bool>,
    depths: Depths,
    residuals: Vec<Residual>,
    cost: f64,
}

impl Point {
    fn new(standard: Vec<f64>, Known { prior, observations, surface }: Known<'_>) -> Self {
        let (least, most) = LOG_DEPTH_RANGE;
        let logs = prior.of(&standard);
        let depth = |at: usize| logs[at].clamp(least, most).exp();
        let depths = Depths { absorbed: bands::each(depth), scattered: bands::each(|band| depth(bands::COUNT + band)) };
        let mut residuals = Vec::new();
        for observation in observations {
            observation.residuals(&depths, surface, &mut residuals);
        }
        let misses: f64 = residuals.iter().map(|residual| residual.value * residual.value).sum();
        let cut = logs.iter().map(|log| !(least..=most).contains(log)).collect();
        Self { cost: misses + dot(&standard, &standard), standard, cut, depths, residuals }
    }

    /// The slope of each residual by each of the standard numbers.
    fn slopes(&self, prior: &Prior) -> Vec<Vec<f64>> {
        self.residuals.iter().map(|residual| self.slopes_of(residual, prior)).collect()
    }

    fn slopes_of(&self, residual: &Residual, prior: &Prior) -> Vec<f64> {
        let mut slopes = vec![0.0; prior.count];
        let (absorbed, scattered) = prior.spread.split_at(bands::COUNT);
        let (absorbed_cut, scattered_cut) = self.cut.split_at(bands::COUNT);
        for band in 0..bands::COUNT {
            if !absorbed_cut[band] {
                add_times(&mut slopes, residual.by_absorbed[band], &absorbed[band]);
            }
            if !scattered_cut[band] {
                add_times(&mut slopes, residual.by_scattered[band], &scattered[band]);
            }
        }
        slopes
    }
}

/// The step from a guess, damped towards the steepest descent.
fn step(at: &Point, slopes: &[Vec<f64>], damping: f64) -> Vec<f64> {
    let scale = 1.0 + damping;
    let mut downhill: Vec<f64> = at.standard.iter().map(|w| -w).collect();
    for (residual, slopes) in at.residuals.iter().zip(slopes) {
        add_times(&mut downhill, -residual.value, slopes);
    }
    let count = slopes.len();
    let small = Square::symmetric(count, |i, j| dot(&slopes[i], &slopes[j]) + if i == j { scale } else { 0.0 });
    let right = slopes.iter().map(|slopes| dot(slopes, &downhill)).collect();
    for (weight, slopes) in small.lower().solve_lower_twice(right).iter().zip(slopes) {
        add_times(&mut downhill, -weight, slopes);
    }
    downhill.into_iter().map(|down| down / scale).collect()
}
