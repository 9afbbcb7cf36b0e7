//! One square of the picture, read so that glare and specks do not count.

use image::{DynamicImage, GenericImageView};

use super::refusal::Refusal;
use crate::colour::space::{self, EncodedRgb, LinearRgb};
use crate::measure::Colour;

/// Fewer pixels a side than this can't be averaged: noise of the camera and blocks of JPEG (8 a side) would show.
const SMALLEST: u32 = 12;

/// A pixel counts while each of its channels lies within so many standard deviations of the median.
const KEPT: f64 = 2.5;

/// From the median of absolute deviations to a standard deviation, for a normal distribution.
const TO_DEVIATION: f64 = 1.4826;

/// What one step of eight bits makes of red, green and blue: of brightness in green, and in red and blue of the colour
/// signals, as cameras keep them (ITU-R BT.601). Deviations are taken to be at least this at the median: the pixels of a
/// smooth patch share one or two levels.
const LEAST_STEPS: [f64; 3] = [1.402, 1.0, 1.772];

/// At least so much of the patch must count: an even film with a stripe of glare does, two colours side by side don't.
const LEAST_USED: f64 = 0.6;

/// Of the pixels that count, no more than this may be at the upper end of a channel.
const MOST_BURNT: f64 = 0.02;

/// Parts of an even patch differ by no more than this (CIEDE2000): streaks of a brush do by 1 to 3. An estimate.
const MOST_SPREAD: f64 = 6.0;

/// The patch is cut into so many parts a side to see whether it is even.
const PARTS: usize = 3;

/// What was read of a patch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// The middle, in pixels from the upper left corner.
    pub at: (f64, f64),
    /// The side, in pixels.
    pub side: u32,
    /// Its mean in linear light, as photographed.
    pub seen: LinearRgb,
    /// How far its parts lie from the whole (CIEDE2000): the second largest of nine, so that one does not count.
    pub spread: f64,
    /// The share of its pixels that counted.
    pub used: f64,
}

impl Sample {
    /// Reads the patch of that side around a point; `what` is its name in messages.
    pub(super) fn of(image: &DynamicImage, what: &str, at: (f64, f64), side: u32) -> Result<Self, Refusal> {
        let corner = corner(image, what, at, side)?;
        let pixels: Vec<[u8; 3]> =
            image.crop_imm(corner.0, corner.1, side, side).to_rgb8().pixels().map(|pixel| pixel.0).collect();
        let linear: Vec<[f64; 3]> = pixels.iter().map(|pixel| channels(space::linear(Colour(*pixel)))).collect();
        let (middle, deviation) = middle_and_deviation(&linear);
        let counts = |pixel: &[f64; 3]| (0..3).all(|at| (pixel[at] - middle[at]).abs() <= KEPT * deviation[at]);
        let kept: Vec<usize> = (0..linear.len()).filter(|at| counts(&linear[*at])).collect();
        let used = kept.len() as f64 / linear.len() as f64;
        refuse_clipped(what, &pixels, &kept)?;
        let seen = mean(kept.iter().map(|at| linear[*at]));
        let spread = spread(&linear, &kept, side, seen);
        if used < LEAST_USED {
            return Err(uneven(format!(
                "the patch {what} is too uneven: only {:.0} % of its pixels are of about one colour",
                100.0 * used
            )));
        }
        if spread > MOST_SPREAD {
            return Err(uneven(format!(
                "the patch {what} is too uneven: parts of it differ from the whole by ΔE00 {spread:.0}"
            )));
        }
        Ok(Self { at, side, seen, spread, used })
    }
}

/// The upper left corner of the patch, where all of it lies in the picture and it is large enough.
fn corner(image: &DynamicImage, what: &str, (x, y): (f64, f64), side: u32) -> Result<(u32, u32), Refusal> {
    if side < SMALLEST {
        return Err(Refusal::new(
            format!("the patch is only {side} × {side} pixels"),
            "the noise of the camera would show in its mean",
            format!("give a larger --patch, at least {SMALLEST} pixels, or photograph the card from nearer"),
        ));
    }
    let (width, height) = image.dimensions();
    let (left, top) = (x - f64::from(side) / 2.0, y - f64::from(side) / 2.0);
    let room = |start: f64, length: u32| start >= 0.0 && start + f64::from(side) <= f64::from(length);
    if !room(left, width) || !room(top, height) {
        return Err(Refusal::new(
            format!("the patch {what} does not lie in the picture, which has {width} × {height} pixels"),
            "a part of it would be missing",
            "give a point farther from the edge; points count in the upright picture, from its upper left corner",
        ));
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked to lie in the picture")]
    let corner = (left as u32, top as u32);
    Ok(corner)
}

/// Refuses what the camera could not hold: too bright in any channel, or dark in all of them.
fn refuse_clipped(what: &str, pixels: &[[u8; 3]], kept: &[usize]) -> Result<(), Refusal> {
    let share = |clipped: fn(&[u8; 3]) -> bool| {
        kept.iter().filter(|at| clipped(&pixels[**at])).count() as f64 / kept.len().max(1) as f64
    };
    if share(|pixel| pixel.iter().any(|channel| *channel >= 254)) > MOST_BURNT {
        return Err(Refusal::new(
            format!("the patch {what} is burnt out"),
            "where the camera ends, nobody knows how bright it was",
            "photograph again with less light or a shorter exposure, out of the glare",
        ));
    }
    if share(|pixel| pixel.iter().all(|channel| *channel <= 2)) > 0.5 {
        return Err(Refusal::new(
            format!("the patch {what} is lost in the dark"),
            "where the camera ends, nobody knows how dark it was",
            "photograph again with more light or a longer exposure",
        ));
    }
    Ok(())
}

fn uneven(message: String) -> Refusal {
    Refusal::new(
        message,
        "its mean would be the colour of nothing on the card",
        "point at the middle of one even patch, away from edges and glare, or give a smaller --patch",
    )
}

fn channels(linear: LinearRgb) -> [f64; 3] {
    [linear.red, linear.green, linear.blue]
}

/// Median and robust standard deviation of each channel.
fn middle_and_deviation(pixels: &[[f64; 3]]) -> ([f64; 3], [f64; 3]) {
    let middle: [f64; 3] = std::array::from_fn(|at| median(pixels.iter().map(|pixel| pixel[at]).collect()));
    let deviation = std::array::from_fn(|at| {
        let off = median(pixels.iter().map(|pixel| (pixel[at] - middle[at]).abs()).collect());
        (TO_DEVIATION * off).max(LEAST_STEPS[at] * step_at(middle[at]))
    });
    (middle, deviation)
}

/// How much brighter one step of eight bits is, in linear light.
fn step_at(linear: f64) -> f64 {
    let here = EncodedRgb::from_linear(LinearRgb::new(linear, linear, linear)).red;
    let next = here + 1.0 / 255.0;
    EncodedRgb::new(next, next, next).into_linear().red - linear
}

fn median(mut values: Vec<f64>) -> f64 {
    let half = values.len() / 2;
    if values.is_empty() {
        return 0.0;
    }
    *values.select_nth_unstable_by(half, f64::total_cmp).1
}

fn mean(pixels: impl Iterator<Item = [f64; 3]>) -> LinearRgb {
    let (count, sum) = pixels.fold((0.0, [0.0; 3]), |(count, sum), pixel| {
        (count + 1.0, std::array::from_fn(|channel| sum[channel] + pixel[channel]))
    });
    let [red, green, blue] = sum.map(|sum: f64| sum / f64::max(count, 1.0));
    LinearRgb::new(red, green, blue)
}

/// How far the means of the patch's parts lie from that of the whole, the second largest; only pixels that count do.
fn spread(pixels: &[[f64; 3]], kept: &[usize], side: u32, whole: LinearRgb) -> f64 {
    let side = side as usize;
    let part = |along: usize| (along * PARTS / side).min(PARTS - 1);
    let part_of = |at: usize| part(at / side) * PARTS + part(at % side);
    let whole = space::lab(whole);
    let mut off: Vec<f64> = (0..PARTS * PARTS)
        .map(|wanted| kept.iter().filter(|at| part_of(**at) == wanted).map(|at| pixels[*at]).collect::<Vec<_>>())
        .filter(|part| part.len() * 4 * PARTS * PARTS > side * side)
        .map(|part| space::lab_difference(space::lab(mean(part.into_iter())), whole))
        .collect();
    off.sort_by(f64::total_cmp);
    off.iter().rev().nth(1).copied().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::{Rgb, RgbImage};

    /// A patch in which every pixel has one of two neighbouring levels, so many in a hundred the lower one.
    fn two_levels(of: [u8; 3], in_a_hundred: u32) -> Result<Sample, Refusal> {
        let level = |x: u32, y: u32| u8::from((x * 37 + y * 61) % 100 >= in_a_hundred);
        let picture = RgbImage::from_fn(40, 40, |x, y| Rgb(of.map(|channel| channel + level(x, y))));
        Sample::of(&DynamicImage::ImageRgb8(picture), "of two levels", (20.0, 20.0), 30)
    }

    #[test]
    fn pixels_that_share_one_or_two_levels_are_an_even_patch() {
        for of in [[3, 3, 3], [30, 28, 26], [90, 60, 20], [128, 128, 128], [250, 240, 230]] {
            for in_a_hundred in [0, 20, 45, 50, 55, 80, 100] {
                let sample = two_levels(of, in_a_hundred).unwrap_or_else(|refusal| panic!("{of:?}: {}", refusal.what));
                let share = f64::from(100 - in_a_hundred) / 100.0;
                let truth = of.map(|channel| (f64::from(channel) + share) / 255.0);
                let truth = space::lab(EncodedRgb::new(truth[0], truth[1], truth[2]).into_linear());
                let off = space::lab_difference(space::lab(sample.seen), truth);
                assert!((sample.used - 1.0).abs() < 1e-9 && off < 0.2, "{of:?}, {in_a_hundred} in 100: {off}");
            }
        }
    }
}
