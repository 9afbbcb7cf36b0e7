//! What an author can say about a paint, as residuals: a swatch's three channels, and a hiding class.

use super::bands::{self, Bands};
use super::cie;
use super::clean::Clean;
use super::contrast::{Cover, Scatter, black_card, white_card};
use super::depths::Depths;
use super::doubt::Doubt;
use super::film;
use super::matrix::dot;
use super::space::{self, EncodedRgb, LinearRgb};
use super::surface::{Inner, Surface};
use crate::measure::Colour;

/// One thing that is known of a paint.
#[derive(Debug, Clone, PartialEq)]
pub enum Observation {
    /// A brush-out and its colour.
    Swatch(Box<BrushOut>),
    /// How one nominal coat hides.
    Cover(Cover),
    /// How one nominal coat scatters.
    Scatter(Scatter),
    /// How much of the blue one nominal coat absorbs at the least.
    Clean(Clean),
}

/// A film that holds the paint, and the colour it shows.
#[derive(Debug, Clone, PartialEq)]
pub struct BrushOut {
    /// What it lies on; `None` where it covers fully.
    pub ground: Option<Inner>,
    /// How many nominal coats of the paint are in it; of a tint, the paint's share.
    pub amount: f64,
    /// What else is in it: the white of a tint.
    pub with: Depths,
    /// What else that may be; `None` where it is not in doubt.
    pub with_doubt: Option<Doubt>,
    /// The colour that was measured.
    pub colour: Colour,
    /// The standard deviation of an encoded channel of that.
    pub spread: f64,
}

/// How far a prediction is from what is known, in standard deviations, and how that grows with ln K and ln S.
pub(crate) struct Residual {
    /// The distance.
    pub(crate) value: f64,
    /// By ln K in each band.
    pub(crate) by_absorbed: Bands,
    /// By ln S in each band.
    pub(crate) by_scattered: Bands,
}

impl Observation {
    /// Adds the residuals of a paint with these depths.
    pub(crate) fn residuals(&self, paint: &Depths, surface: Surface, into: &mut Vec<Residual>) {
        match self {
            Self::Swatch(swatch) => swatch.residuals(paint, surface, into),
            Self::Cover(cover) => into.push(cover.residual(paint)),
            Self::Scatter(scatter) => into.push(scatter.residual(paint)),
            Self::Clean(clean) => into.push(clean.residual(paint)),
        }
    }
}

impl BrushOut {
    /// The colour that a paint with these depths shows in it.
    pub(crate) fn seen(&self, paint: &Depths, surface: Surface) -> LinearRgb {
        let film = paint.times(self.amount).plus(&self.with);
        surface.outer(&self.ground.map_or_else(|| film.opaque(), |ground| film.over(&ground))).linear_rgb()
    }

    fn residuals(&self, paint: &Depths, surface: Surface, into: &mut Vec<Residual>) {
        let seen = Seen::of(paint, self.amount, &self.with, self.ground.as_ref(), surface);
        let linear = cie::channels(&seen.value);
        let encoded = EncodedRgb::from_linear(LinearRgb::from(linear));
        for (channel, predicted) in [encoded.red, encoded.green, encoded.blue].into_iter().enumerate() {
            let byte = self.colour.0[channel];
            let away = predicted - f64::from(byte) / 255.0;
            let beyond = (byte == 0 && away < 0.0) || (byte == 255 && away > 0.0);
            let scale = if beyond { 0.0 } else { 1.0 / self.spread };
            let slope = scale * encoding_slope(linear[channel]);
            into.push(seen.residual(scale * away, slope, &cie::weights()[channel]));
        }
    }
}

/// How fast the encoded value grows with the linear one (IEC 61966-2-1).
fn encoding_slope(linear: f64) -> f64 {
    if linear <= 0.003_130_8 { 12.92 } else { 1.055 / 2.4 * linear.powf(1.0 / 2.4 - 1.0) }
}

impl Scatter {
    /// The mean ln S against the one that is held likely.
    fn residual(self, paint: &Depths) -> Residual {
        Residual {
            value: (Self::level_of(paint) - self.level) / self.spread,
            by_absorbed: [0.0; bands::COUNT],
            by_scattered: [1.0 / (self.spread * bands::COUNT as f64); bands::COUNT],
        }
    }
}

impl Clean {
    /// The mean ln K, or ln K/S, of blue against the least that is held likely; more than that is no further off.
    fn residual(self, paint: &Depths) -> Residual {
        let short = (self.of(paint) - self.least).min(0.0);
        let scale = if short < 0.0 { 1.0 / self.spread } else { 0.0 };
        Residual {
            value: short / self.spread,
            by_absorbed: bands::each(|band| scale * Self::slope(band)),
            by_scattered: bands::each(|band| scale * self.slope_by_scattered(band)),
        }
    }
}

impl Cover {
    /// The logit of the contrast ratio against the one that is held likely.
    fn residual(self, paint: &Depths) -> Residual {
        let surface = Surface::CHART;
        let luminance = space::luminance_weights();
        let weights =
            bands::each(|band| (0..3).map(|channel| luminance[channel] * cie::weights()[channel][band]).sum());
        let [black, white] = [black_card(surface), white_card(surface)]
            .map(|card| Seen::of(paint, 1.0, &Depths::NONE, Some(&card), surface));
        let [over_black, over_white] = [&black, &white].map(|seen| dot(&seen.value, &weights).max(1e-9));
        let ratio = (over_black / over_white).clamp(1e-6, 1.0 - 1e-6);
        let logit = |share: f64| (share / (1.0 - share)).ln();
        let steep = 1.0 / (self.spread * (1.0 - ratio));
        let by_black = black.residual(0.0, steep / over_black, &weights);
        let by_white = white.residual(0.0, steep / over_white, &weights);
        Residual {
            value: (logit(ratio) - logit(self.ratio)) / self.spread,
            by_absorbed: bands::each(|band| by_black.by_absorbed[band] - by_white.by_absorbed[band]),
            by_scattered: bands::each(|band| by_black.by_scattered[band] - by_white.by_scattered[band]),
        }
    }
}

/// An outer reflectance with its slopes by ln K and ln S of the paint in it.
struct Seen {
    value: Bands,
    by_absorbed: Bands,
    by_scattered: Bands,
}

impl Seen {
    fn of(paint: &Depths, amount: f64, with: &Depths, ground: Option<&Inner>, surface: Surface) -> Self {
        let own = paint.times(amount);
        let all = own.plus(with);
        let [mut below, mut by_absorbed, mut by_scattered] = [[0.0; bands::COUNT]; 3];
        for band in 0..bands::COUNT {
            let (absorbed, scattered) = (all.absorbed[band], all.scattered[band]);
            let slopes = match ground {
                Some(ground) => film::slopes_over(absorbed, scattered, ground.0[band]),
                None => film::slopes_opaque(absorbed, scattered),
            };
            let skin = surface.slope(slopes.value);
            below[band] = slopes.value;
            by_absorbed[band] = skin * slopes.by_absorbed * own.absorbed[band];
            by_scattered[band] = skin * slopes.by_scattered * own.scattered[band];
        }
        Self { value: surface.outer(&Inner(below)).0, by_absorbed, by_scattered }
    }

    /// A residual that grows by `slope` with the weighted sum of the reflectance.
    fn residual(&self, value: f64, slope: f64, weights: &Bands) -> Residual {
        Residual {
            value,
            by_absorbed: bands::each(|band| slope * weights[band] * self.by_absorbed[band]),
            by_scattered: bands::each(|band| slope * weights[band] * self.by_scattered[band]),
        }
    }
}
