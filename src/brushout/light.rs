//! The light on the card, as bare patches of known reflectance tell it.

use super::patch::Sample;
use super::refusal::Refusal;
use crate::colour::space::{self, LinearRgb};

/// Light that is so much stronger at one bare patch than at another can't be levelled out.
const MOST_TILT: f64 = 2.5;

/// Points whose scatter across their main line is below this part of that along it lie on a line.
const ON_A_LINE: f64 = 0.02;

/// A black card may be photographed so much darker than it is said to be, as a part of the light: that is its rounding.
const DARKER: f64 = 0.004;

/// Light and veil are told from each other by turns: each turn leaves a tenth of the error, or less.
const TURNS: usize = 12;

/// A sample with what it reflects in every band.
pub(super) type Known = (Sample, f64);

/// How bright a perfect white would be photographed: a plane over the picture for each channel, and a veil over all.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Light {
    plane: Plane,
    /// What the lens and the skin of the card scatter over everything: red, green and blue in linear light.
    veil: [f64; 3],
    /// How much stronger it is at the brightest bare patch than at the darkest; 1 where it is even or not known.
    pub tilt: f64,
    /// How far the bare patches lie from even or evenly falling light, the farthest: a part of the light.
    pub off: f64,
    /// Whether a black card is photographed darker than it is said to be, so that no veil could be told.
    pub too_dark: bool,
}

/// A plane for each channel.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Plane {
    middle: (f64, f64),
    at_middle: [f64; 3],
    slope: [(f64, f64); 3],
}

impl Light {
    /// Light as the camera took it to be: a perfect white is white.
    pub const UNKNOWN: Self = Self { plane: Plane::UNKNOWN, veil: [0.0; 3], tilt: 1.0, off: 0.0, too_dark: false };

    /// The light over bare patches with what they reflect: even for one, changing evenly along the line between two, a
    /// plane by least squares for more. What a black card sends beyond what it reflects is the veil.
    pub(super) fn over(bare: &[Known], dark: &[Known]) -> Result<Self, Refusal> {
        let (mut plane, mut veil) = (Plane::over(bare, [0.0; 3]), [0.0; 3]);
        for _ in 0..if dark.is_empty() { 0 } else { TURNS } {
            veil = std::array::from_fn(|channel| {
                let over =
                    |(sample, reflects): &Known| channels(sample)[channel] - reflects * plane.at(sample, channel);
                dark.iter().map(over).sum::<f64>() / dark.len() as f64
            });
            plane = Plane::over(bare, veil);
        }
        let too_dark = (0..3).any(|channel| veil[channel] < -DARKER * plane.at_middle[channel]);
        veil = veil.map(|veil| veil.max(0.0));
        plane = Plane::over(bare, veil);
        let tilt = tilt(bare, veil);
        if tilt > MOST_TILT {
            return Err(Refusal::new(
                format!("the light is {tilt:.1} times stronger on one bare patch than on another"),
                "light that falls off so much can't be levelled out",
                "see that each point lies on what its option says, and light the card evenly, from a window or from both sides",
            ));
        }
        Ok(Self { plane, veil, tilt, off: plane.off(bare, veil), too_dark })
    }

    /// How bright the veil is, as a part of what a perfect white would be photographed as.
    pub fn veil(&self) -> f64 {
        let whole = |channels: [f64; 3]| space::luminance(LinearRgb::from(channels));
        let veil = whole(self.veil);
        veil / (veil + whole(self.plane.at_middle)).max(1e-6)
    }

    /// What something reflects that was seen in the middle of this light.
    pub fn balanced(&self, seen: LinearRgb) -> LinearRgb {
        let of = |channel: usize, seen: f64| (seen - self.veil[channel]) / self.plane.at_middle[channel].max(1e-6);
        LinearRgb::new(of(0, seen.red), of(1, seen.green), of(2, seen.blue))
    }

    /// What a sample reflects in this light.
    pub(super) fn reflected(&self, sample: &Sample) -> LinearRgb {
        let seen = channels(sample);
        let of = |channel: usize| (seen[channel] - self.veil[channel]).max(0.0) / self.plane.at(sample, channel);
        LinearRgb::new(of(0), of(1), of(2))
    }
}

impl Plane {
    const UNKNOWN: Self = Self { middle: (0.0, 0.0), at_middle: [1.0; 3], slope: [(0.0, 0.0); 3] };

    fn over(bare: &[Known], veil: [f64; 3]) -> Self {
        if bare.is_empty() {
            // The camera's own white is believed, and the veil is a part of it.
            return Self { at_middle: veil.map(|veil| 1.0 - veil), ..Self::UNKNOWN };
        }
        let count = bare.len() as f64;
        let mean = |of: &dyn Fn(&Known) -> f64| bare.iter().map(of).sum::<f64>() / count;
        let middle = (mean(&|(sample, _)| sample.at.0), mean(&|(sample, _)| sample.at.1));
        let scatter = Scatter::of(bare.iter().map(|(sample, _)| (sample.at.0 - middle.0, sample.at.1 - middle.1)));
        let at_middle: [f64; 3] = std::array::from_fn(|channel| mean(&|one| strength(one, veil)[channel]));
        let slope = std::array::from_fn(|channel| {
            let along = |one: &Known| strength(one, veil)[channel] - at_middle[channel];
            let x = bare.iter().map(|one| (one.0.at.0 - middle.0) * along(one)).sum();
            let y = bare.iter().map(|one| (one.0.at.1 - middle.1) * along(one)).sum();
            scatter.solve(x, y)
        });
        Self { middle, at_middle, slope }
    }

    /// How bright a perfect white would be where a sample lies.
    fn at(&self, sample: &Sample, channel: usize) -> f64 {
        let (x, y) = (sample.at.0 - self.middle.0, sample.at.1 - self.middle.1);
        let light = self.at_middle[channel] + self.slope[channel].0 * x + self.slope[channel].1 * y;
        // Far outside the bare patches a plane may run into the dark; there the light is held at a fifth.
        light.max(0.2 * self.at_middle[channel]).max(1e-6)
    }

    fn off(&self, bare: &[Known], veil: [f64; 3]) -> f64 {
        let off = |one: &Known| {
            let strength = strength(one, veil);
            let apart = |channel: usize| (strength[channel] / self.at(&one.0, channel) - 1.0).abs();
            (0..3).map(apart).fold(0.0, f64::max)
        };
        bare.iter().map(off).fold(0.0, f64::max)
    }
}

/// How much stronger the light is at the brightest bare patch than at the darkest.
fn tilt(bare: &[Known], veil: [f64; 3]) -> f64 {
    let whole = bare.iter().map(|one| space::luminance(LinearRgb::from(strength(one, veil))));
    let (least, most) = whole.fold((f64::INFINITY, 0.0_f64), |(least, most), one| (least.min(one), most.max(one)));
    if bare.is_empty() { 1.0 } else { most / least.max(1e-6) }
}

/// How bright a perfect white would be where a bare patch lies.
fn strength((sample, reflects): &Known, veil: [f64; 3]) -> [f64; 3] {
    let seen = channels(sample);
    std::array::from_fn(|channel| (seen[channel] - veil[channel]) / reflects.max(0.01))
}

fn channels(sample: &Sample) -> [f64; 3] {
    [sample.seen.red, sample.seen.green, sample.seen.blue]
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
