//! The smoothest reflectance that has a given colour.
//!
//! Least slope of z = atanh(2R − 1) under the three sums that make the colour, by Newton's method on the Lagrange
//! conditions (S. A. Burns, "Numerical methods for smoothest reflectance reconstruction", Color Research and
//! Application 45 (2020) 8). Always inside 0 to 1. For grounds, primers and metals, of which nothing more is known.

use super::bands::{self, Bands};
use super::cie;
use super::constants::GAMUT_MARGIN;
use super::matrix::{Square, dot};
use super::space::{self, LinearRgb};
use super::surface::Outer;

/// Unknowns: z in each band, and a multiplier for each channel.
const UNKNOWNS: usize = bands::COUNT + 3;

/// Newton's steps; dark pure colours need the most, others a dozen.
const MOST_STEPS: usize = 120;

/// The longest step in z. Where the first one runs astray, a shorter one finds the way.
const LONGEST_STEPS: [f64; 4] = [2.0, 1.0, 0.5, 0.25];

/// It ends when no z moves by more than this.
const SETTLED: f64 = 1e-10;

/// A reflectance with that colour. Each channel is first moved into [0.0001, 0.9999].
pub fn reflectance(colour: LinearRgb) -> Outer {
    let wanted = [colour.red, colour.green, colour.blue].map(|channel| channel.clamp(GAMUT_MARGIN, 1.0 - GAMUT_MARGIN));
    let luminance = dot(&space::luminance_weights(), &wanted);
    let found = LONGEST_STEPS.iter().find_map(|longest| smoothest(luminance, wanted, *longest));
    found.unwrap_or_else(|| Outer::grey(luminance))
}

/// Newton's method from grey; `None` where it does not settle.
fn smoothest(luminance: f64, wanted: [f64; 3], longest_step: f64) -> Option<Outer> {
    let mut z = [(2.0 * luminance - 1.0).atanh(); bands::COUNT];
    let mut multipliers = [0.0; 3];
    for _ in 0..MOST_STEPS {
        let (system, miss) = conditions(&z, multipliers, wanted);
        let step = system.solve(miss)?;
        let longest = step[..bands::COUNT].iter().fold(0.0_f64, |most, step| most.max(step.abs()));
        let part = longest_step / longest.max(longest_step);
        z.iter_mut().zip(&step).for_each(|(z, step)| *z -= part * step);
        multipliers.iter_mut().zip(&step[bands::COUNT..]).for_each(|(multiplier, step)| *multiplier -= part * step);
        if longest < SETTLED {
            return Some(Outer(z.map(|z| f64::midpoint(z.tanh(), 1.0))));
        }
    }
    None
}

/// The Lagrange conditions' slopes and how far they are from being met.
fn conditions(z: &Bands, multipliers: [f64; 3], wanted: [f64; 3]) -> (Square, Vec<f64>) {
    let weights = cie::weights();
    let tanh = z.map(f64::tanh);
    let slope = tanh.map(|tanh| f64::midpoint(1.0, -tanh * tanh));
    let pull = bands::each(|band| (0..3).map(|channel| multipliers[channel] * weights[channel][band]).sum());
    let sums = cie::channels(&tanh.map(|tanh| f64::midpoint(tanh, 1.0)));
    let miss = (0..UNKNOWNS).map(|at| match at.checked_sub(bands::COUNT) {
        None => roughness_slope(z, at) + pull[at] * slope[at],
        Some(channel) => sums[channel] - wanted[channel],
    });
    let system =
        Square::new(UNKNOWNS, |row, column| match (row.checked_sub(bands::COUNT), column.checked_sub(bands::COUNT)) {
            (None, None) if row == column => roughness(row, column) - 2.0 * pull[row] * tanh[row] * slope[row],
            (None, None) => roughness(row, column),
            (None, Some(channel)) => weights[channel][row] * slope[row],
            (Some(channel), None) => weights[channel][column] * slope[column],
            (Some(_), Some(_)) => 0.0,
        });
    (system, miss.collect())
}

/// The second differences of `Σ (z[i+1] − z[i])²`.
fn roughness(row: usize, column: usize) -> f64 {
    match row.abs_diff(column) {
        0 if row == 0 || row == bands::COUNT - 1 => 2.0,
        0 => 4.0,
        1 => -2.0,
        _ => 0.0,
    }
}

fn roughness_slope(z: &Bands, band: usize) -> f64 {
    let before = band.checked_sub(1).map_or(0.0, |before| z[band] - z[before]);
    let behind = z.get(band + 1).map_or(0.0, |behind| z[band] - behind);
    2.0 * (before + behind)
}
