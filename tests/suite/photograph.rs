//! Photographs of brush-out cards that tests render, with a truth that is known.
//!
//! The card stands on a grey desk: white band above, black band below, a film of paint over both, a bare strip of white
//! card on the left and right, a grey card under the paint. Light, lens and camera spoil it as much as is asked for.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::{ImageFormat, Rgb, RgbImage};

/// Across and down, in pixels.
pub(crate) const SIZE: (u32, u32) = (800, 600);

/// What is asked of a photograph.
#[derive(Clone, Copy)]
pub(crate) struct Photograph {
    /// The paint over white and over black, as encoded colours.
    pub(crate) paint: [[u8; 3]; 2],
    /// How much of the light the camera takes for red, green and blue: its white balance.
    pub(crate) cast: [f64; 3],
    /// How much darker the light is at the right edge, and at the lower one.
    pub(crate) tilt: (f64, f64),
    /// Standard deviation of noise, in steps of 255.
    pub(crate) noise: f64,
    /// Whether dust and glare lie on the paint.
    pub(crate) spoiled: bool,
    /// What the white and the black card reflect.
    pub(crate) cards: [f64; 2],
    /// Light that lens and room scatter over everything, as a part of that on a perfect white.
    pub(crate) veil: f64,
    /// How far the picture is blurred, in pixels.
    pub(crate) blur: f32,
    /// The quality of the JPEG.
    pub(crate) quality: u8,
}

impl Photograph {
    /// An even, clean one.
    pub(crate) fn of(white: [u8; 3], black: [u8; 3]) -> Self {
        Self {
            paint: [white, black],
            cast: [1.0; 3],
            tilt: (0.0, 0.0),
            noise: 0.0,
            spoiled: false,
            cards: [0.85, 0.02],
            veil: 0.0,
            blur: 0.0,
            quality: 85,
        }
    }

    /// The picture.
    pub(crate) fn picture(&self) -> RgbImage {
        let mut chance = Chance(0x9e37_79b9_7f4a_7c15);
        let specks = if self.spoiled { specks(&mut chance) } else { vec![None; (SIZE.0 * SIZE.1) as usize] };
        let sharp = RgbImage::from_fn(SIZE.0, SIZE.1, |x, y| {
            let speck = specks[(y * SIZE.0 + x) as usize];
            let (x, y) = (f64::from(x), f64::from(y));
            let mut reflected = speck.map_or_else(|| self.card(x, y), |bright| [bright; 3]);
            // A lamp mirrored in the wet-looking ridges: bright stripes over a fifth of the paint.
            if self.spoiled && (200.0..600.0).contains(&x) && (x + 0.3 * y) % 40.0 < 4.0 {
                reflected = reflected.map(|channel| channel + 0.3);
            }
            let light = (1.0 - self.tilt.0 * x / 800.0) * (1.0 - self.tilt.1 * y / 600.0);
            Rgb(std::array::from_fn(|channel| {
                let seen = (reflected[channel] * light + self.veil) * self.cast[channel];
                byte(encoded(seen) * 255.0 + self.noise * chance.normal())
            }))
        });
        if self.blur > 0.0 { image::imageops::fast_blur(&sharp, self.blur) } else { sharp }
    }

    /// What the card reflects at a point.
    fn card(&self, x: f64, y: f64) -> [f64; 3] {
        let paint = (200.0..600.0).contains(&x) && (50.0..450.0).contains(&y);
        match (paint, y < 250.0, y < 470.0) {
            (true, true, _) => self.paint[0].map(linear),
            (true, false, _) => self.paint[1].map(linear),
            (false, true, _) => [self.cards[0]; 3],
            (false, false, true) => [self.cards[1]; 3],
            (false, false, false) => [0.18; 3],
        }
    }

    /// As a camera saves it.
    pub(crate) fn jpeg(&self) -> Vec<u8> {
        jpeg_of(&self.picture(), self.quality)
    }
}

/// A picture as JPEG of quality 85.
pub(crate) fn jpeg(picture: &RgbImage) -> Vec<u8> {
    jpeg_of(picture, 85)
}

fn jpeg_of(picture: &RgbImage, quality: u8) -> Vec<u8> {
    let mut out = Cursor::new(Vec::new());
    picture.write_with_encoder(JpegEncoder::new_with_quality(&mut out, quality)).unwrap();
    out.into_inner()
}

/// A picture as PNG.
pub(crate) fn png(picture: &RgbImage) -> Vec<u8> {
    let mut out = Cursor::new(Vec::new());
    picture.write_to(&mut out, ImageFormat::Png).unwrap();
    out.into_inner()
}

/// A JPEG that says (in Exif) that it must be turned: 6 is by a quarter clockwise.
pub(crate) fn turned(jpeg: &[u8], orientation: u8) -> Vec<u8> {
    let mut exif = b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
    exif.extend([orientation, 0, 0, 0, 0, 0, 0]);
    let length = u16::try_from(exif.len() + 2).unwrap().to_be_bytes();
    [&jpeg[..2], &[0xff, 0xe1], &length, &exif, &jpeg[2..]].concat()
}

/// What dust of some pixels reflects, light and dark, where it lies on the paint.
fn specks(chance: &mut Chance) -> Vec<Option<f64>> {
    let mut specks = vec![None; (SIZE.0 * SIZE.1) as usize];
    for at in 0..160 {
        let (x, y, size) = (200.0 + 400.0 * chance.next(), 60.0 + 380.0 * chance.next(), 1.0 + 3.0 * chance.next());
        for (right, down) in (0..9).flat_map(|right| (0..9).map(move |down| (right, down))) {
            let (across, below) = (x.floor() - 4.0 + f64::from(right), y.floor() - 4.0 + f64::from(down));
            if (across - x).hypot(below - y) < size {
                let place = below * f64::from(SIZE.0) + across;
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "specks lie in the picture"
                )]
                let place = place as usize;
                specks[place] = Some(if at % 3 == 0 { 1.0 } else { 0.01 });
            }
        }
    }
    specks
}

/// A fixed sequence of numbers that look like chance.
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        f64::from(u32::try_from(self.0 >> 32).unwrap()) / f64::from(u32::MAX)
    }

    /// Nearly normal, with a deviation of 1: from the sum of four even numbers.
    fn normal(&mut self) -> f64 {
        ((0..4).map(|_| self.next()).sum::<f64>() - 2.0) * 3.0_f64.sqrt()
    }
}

fn linear(byte: u8) -> f64 {
    let value = f64::from(byte) / 255.0;
    if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
}

fn encoded(linear: f64) -> f64 {
    if linear <= 0.003_130_8 { 12.92 * linear } else { 1.055 * linear.powf(1.0 / 2.4) - 0.055 }
}

fn byte(value: f64) -> u8 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a byte")]
    let byte = value.round().clamp(0.0, 255.0) as u8;
    byte
}
