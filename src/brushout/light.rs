//! The light on the card, as bare patches of known reflectance tell it.

use super::patch::Sample;
use super::refusal::Refusal;
use crate::colour::space::{self, LinearRgb};

/// Light that is so much stronger at one bare patch than at another can't be levelled out.
const MOST_TILT: f64 = 2.5;

/// Points whose scatter across their main line is below this part of that along it lie on a line.
const ON_A_LINE: f64 = 0.02;

/// How bright a perfect white would be photographed: a plane over the picture for each channel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Light {
    middle: (f64, f64),
    at_middle: [f64; 3],
    slope: [(f64, f64); 3],
    /// How much stronger it is at the brightest bare patch than at the darkest; 1 where it is even or not known.
    pub tilt: f64,
}

impl Light {
    /// Light as the camera took it to be: a perfect white is white.
    pub const UNKNOWN: Self = Self { middle: (0.0, 0.0), at_middle: [1.0; 3], slope: [(0.0, 0.0); 3], tilt: 1.0 };

    /// The light over bare patches with what they reflect: even for one, changing evenly along the line between two, a
    /// plane by least squares for more.
    pub(super) fn over(bare: &[(Sample, f64)]) -> Result<Self, Refusal> {
        if bare.is_empty() {
            return Ok(Self::UNKNOWN);
        }
        let count = bare.len() as f64;
        let mean = |of: &dyn Fn(&(Sample, f64)) -> f64| bare.iter().map(of).sum::<f64>() / count;
        let middle = (mean(&|(sample, _)| sample.at.0), mean(&|(sample, _)| sample.at.1));
        let strength = |(sample, reflects): &(Sample, f64), channel: usize| {
            [sample.seen.red, sample.seen.green, sample.seen.blue][channel] / reflects.max(0.01)
        };
        let scatter = Scatter::of(bare.iter().map(|(sample, _)| (sample.at.0 - middle.0, sample.at.1 - middle.1)));
        let at_middle: [f64; 3] = std::array::from_fn(|channel| mean(&|one| strength(one, channel)));
        let slope = std::array::from_fn(|channel| {
            let along = |one: &(Sample, f64)| strength(one, channel) - at_middle[channel];
            let x = bare.iter().map(|one| (one.0.at.0 - middle.0) * along(one)).sum();
            let y = bare.iter().map(|one| (one.0.at.1 - middle.1) * along(one)).sum();
            scatter.solve(x, y)
        });
        let whole = |one: &(Sample, f64)| {
            space::luminance(LinearRgb::new(strength(one, 0), strength(one, 1), strength(one, 2)))
        };
        let (least, most) =
            bare.iter().map(whole).fold((f64::INFINITY, 0.0_f64), |(least, most), one| (least.min(one), most.max(one)));
        let tilt = most / least.max(1e-6);
        if tilt > MOST_TILT {
            return Err(Refusal::new(
                format!("the light is {tilt:.1} times stronger on one bare patch than on another"),
                "light that falls off so much can't be levelled out",
                "see that each point lies on what its option says, and light the card evenly, from a window or from both sides",
            ));
        }
        Ok(Self { middle, at_middle, slope, tilt })
    }

    /// What something reflects that was seen in the middle of this light.
    pub fn balanced(&self, seen: LinearRgb) -> LinearRgb {
        let of = |channel: usize, seen: f64| seen / self.at_middle[channel].max(1e-6);
        LinearRgb::new(of(0, seen.red), of(1, seen.green), of(2, seen.blue))
    }

    /// What a sample reflects in this light.
    pub(super) fn reflected(&self, sample: &Sample) -> LinearRgb {
        let (x, y) = (sample.at.0 - self.middle.0, sample.at.1 - self.middle.1);
        let of = |channel: usize, seen: f64| {
            // Far outside the bare patches a plane may run into the dark; there the light is held at a fifth.
            let light = self.at_middle[channel] + self.slope[channel].0 * x + self.slope[channel].1 * y;
            seen / light.max(0.2 * self.at_middle[channel]).max(1e-6)
        };
        LinearRgb::new(of(0, sample.seen.red), of(1, sample.seen.green), of(2, sample.seen.blue))
    }
}

/// The second moments of points around their middle.
struct Scatter {
    xx: f64,
    xy: f64,
    yy: f64,
}

impl Scatter {
    fn of(points: impl Iterator<Item = (f64, f64)>) -> Self {
        points.fold(Self { xx: 0.0, xy: 0.0, yy: 0.0 }, |sum, (x, y)| Self {
            xx: sum.xx + x * x,
            xy: sum.xy + x * y,
            yy: sum.yy + y * y,
        })
    }

    /// The slope that explains the moments with the strengths best; across a line of points it is zero.
    fn solve(&self, x: f64, y: f64) -> (f64, f64) {
        let whole = self.xx + self.yy;
        let determinant = self.xx * self.yy - self.xy * self.xy;
        if whole < 1.0 {
            return (0.0, 0.0);
        }
        if determinant > ON_A_LINE * whole * whole {
            return ((self.yy * x - self.xy * y) / determinant, (self.xx * y - self.xy * x) / determinant);
        }
        // For points on one line the moments are a multiple of its direction, and so is the slope.
        (x / whole, y / whole)
    }
}
