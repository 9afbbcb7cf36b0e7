//! A photograph of the bare model in place of a mesh: its light shades other colours, and its fine contrast says where
//! recesses and edges are.

use super::bake::{Baked, Spot, spread_evenly};
use super::mesh::NO_AREA;
use super::noise;
use super::vector::smooth;

/// A photograph of a model in one colour, and whose each part of it is.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Photo {
    /// Pixels across; an even number.
    pub width: usize,
    /// Pixels down; an even number.
    pub height: usize,
    /// Red, green and blue of each, as a screen counts light.
    pub pixels: Vec<[u8; 3]>,
    /// The area of each quarter of each pixel, row by row: twice as many across and down.
    pub areas: Vec<u16>,
}

/// What is known of the model in a photograph.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bare {
    /// What it is coated with, in linear light.
    pub coat: [f32; 3],
    /// How much of it lies in recesses and on edges.
    pub zones: [f32; 2],
}

/// Of the model's pixels those between these parts of its range from dark to light are its faces in the light.
const FACES: (f32, f32) = (0.60, 0.90);

/// The colour of the light is evened out by no more than this.
const MOST_BALANCE: f32 = 2.0;

/// A coat darker than this says nothing of the light's colour.
const DARK: f32 = 0.02;

/// Contrast below this is grain of the photograph.
const GRAIN: f32 = 0.03;

/// How far around a pixel its brightness is compared with, as a part of the picture's longer side.
const AROUND: f32 = 0.018;

impl Photo {
    /// The light in it, so that the model can be drawn in other colours; `None` where none of it is an area.
    pub fn bake(&self, bare: &Bare) -> Option<Baked> {
        let parts = self.parts();
        let light = Light::of(self, &parts, bare)?;
        let relief = Relief::of(self, &parts, &light.all, bare.zones);
        let mut spots: Vec<Spot> =
            parts.iter().map(|(at, area, part)| self.spot(&light, &relief, *at, *area, *part)).collect();
        spread_evenly(&mut spots);
        Some(Baked { width: self.width, height: self.height, spots, photographed: true, ground: light.pixels })
    }

    /// How much of each pixel each area fills: pixel, area and part, in the order of the pixels.
    fn parts(&self) -> Vec<(usize, u16, f32)> {
        let wide = self.width * 2;
        let mut parts: Vec<(usize, u16, f32)> = Vec::new();
        for at in 0..self.width * self.height {
            let corner = at / self.width * 2 * wide + at % self.width * 2;
            let begin = parts.len();
            for quarter in [corner, corner + 1, corner + wide, corner + wide + 1] {
                let area = self.areas.get(quarter).copied().unwrap_or(NO_AREA);
                if area == NO_AREA {
                    continue;
                }
                match parts[begin..].iter_mut().find(|(_, known, _)| *known == area) {
                    Some((.., part)) => *part += 0.25,
                    None => parts.push((at, area, 0.25)),
                }
            }
        }
        parts
    }

    /// One surface in one pixel. What a photograph does not tell is guessed from its light, which comes from above.
    fn spot(&self, light: &Light, relief: &Relief, at: usize, area: u16, part: f32) -> Spot {
        let (x, y) = ((at % self.width) as f32, (at / self.width) as f32);
        let own = light.all[at];
        let wide = relief.wide[at];
        let long = self.width.max(self.height) as f32;
        let place = [x / long, -y / long, 0.0];
        let left = 1.0 - (x - relief.left) / (relief.right - relief.left).max(1.0);
        let above = smooth(0.62, 1.02, wide);
        Spot {
            pixel: u32::try_from(at).unwrap_or(u32::MAX),
            part,
            area,
            light: own,
            recess: relief.recess(at),
            edge: relief.edge(at),
            up: ((wide - 0.65) / 0.6).clamp(-0.5, 1.0),
            mirrored: [0.5 + 0.2 * own, 0.1 + 0.75 * own, 0.55 + 1.6 * smooth(1.02, 1.5, own)],
            aslant: 0.0,
            sides: [above, 1.0 - smooth(0.3, 0.75, wide), 0.8, 0.0, smooth(0.4, 0.9, left), smooth(0.6, 0.1, left)],
            grain: [
                noise::rough(place.map(|number| number * 52.0)),
                noise::rough([place[0] * 60.0, place[1] * 6.4, 0.0]),
                noise::rough(place.map(|number| number * 140.0)),
                noise::soft(place.map(|number| number * 9.0)),
            ],
        }
    }
}

/// The light of a photograph.
struct Light {
    /// Its pixels in linear light, balanced.
    pixels: Vec<[f32; 3]>,
    /// How bright each is: 1 where the model's faces are in the light.
    all: Vec<f32>,
}

impl Light {
    fn of(photo: &Photo, parts: &[(usize, u16, f32)], bare: &Bare) -> Option<Self> {
        let linear = linear();
        let mut pixels: Vec<[f32; 3]> =
            photo.pixels.iter().map(|pixel| pixel.map(|byte| linear[usize::from(byte)])).collect();
        pixels.resize(photo.width * photo.height, [0.0; 3]);
        let mut lit: Vec<(f32, usize)> = parts.iter().map(|(at, ..)| (luminance(pixels[*at]), *at)).collect();
        lit.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
        let faces = &lit[part_of(lit.len(), FACES.0)..part_of(lit.len(), FACES.1).max(part_of(lit.len(), FACES.0))];
        let faces = if faces.is_empty() { lit.as_slice() } else { faces };
        if faces.is_empty() {
            return None;
        }
        let sum = faces.iter().fold([0.0_f64; 3], |sum, (_, at)| {
            let pixel = pixels[*at];
            [0, 1, 2].map(|channel: usize| sum[channel] + f64::from(pixel[channel]))
        });
        #[expect(clippy::cast_possible_truncation, reason = "light from 0 to 1")]
        let mean = sum.map(|channel| (channel / faces.len() as f64) as f32);
        let gain = balance(mean, bare.coat);
        for pixel in &mut pixels {
            *pixel = [0, 1, 2].map(|channel| pixel[channel] * gain[channel]);
        }
        let full = luminance([0, 1, 2].map(|channel| mean[channel] * gain[channel])).max(0.002);
        let all = pixels.iter().map(|pixel| (luminance(*pixel) / full).min(2.5)).collect();
        Some(Self { pixels, all })
    }
}

/// What takes the colour of the light out of a photograph in which a coat looks like `seen`.
fn balance(seen: [f32; 3], coat: [f32; 3]) -> [f32; 3] {
    let of_coat = luminance(coat);
    let coat = if of_coat < DARK { [1.0; 3] } else { coat.map(|channel| channel / of_coat) };
    let all = luminance(seen).max(1e-4);
    [0, 1, 2].map(|channel| {
        let own = (seen[channel] / all).max(1e-3);
        (coat[channel] / own).clamp(1.0 / MOST_BALANCE, MOST_BALANCE)
    })
}

/// Where recesses and edges are.
struct Relief {
    /// How much brighter each pixel is than what is around it.
    contrast: Vec<f32>,
    /// The brightness of what is around each pixel.
    wide: Vec<f32>,
    /// Below the first is recess, above the second edge.
    bounds: [f32; 2],
    /// How softly one becomes the other.
    soft: f32,
    /// From where to where the model reaches.
    left: f32,
    right: f32,
}

impl Relief {
    fn of(photo: &Photo, parts: &[(usize, u16, f32)], light: &[f32], zones: [f32; 2]) -> Self {
        let size = (photo.width, photo.height);
        let mut owned = vec![0.0_f32; photo.width * photo.height];
        for (at, _, part) in parts {
            owned[*at] += part;
        }
        let long = photo.width.max(photo.height) as f32;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few pixels")]
        let reach = ((long * AROUND) as usize).max(2);
        let near = around(light, &owned, size, 1);
        let wide = around(&around(light, &owned, size, reach), &owned, size, reach);
        let contrast: Vec<f32> =
            near.iter().zip(&wide).map(|(near, wide)| ((near + 0.02) / (wide + 0.02)).ln()).collect();
        let mut sorted: Vec<f32> = parts.iter().map(|(at, ..)| contrast[*at]).collect();
        sorted.sort_by(f32::total_cmp);
        let at = |part: f32| sorted.get(part_of(sorted.len(), part)).copied().unwrap_or_default();
        let bounds = [at(zones[0]).min(-GRAIN), at(1.0 - zones[1]).max(GRAIN)];
        let columns = || parts.iter().map(|(at, ..)| (at % photo.width) as f32);
        Self {
            soft: ((at(0.84) - at(0.16)) * 0.25).max(GRAIN * 0.5),
            left: columns().fold(f32::INFINITY, f32::min),
            right: columns().fold(0.0, f32::max),
            contrast,
            wide,
            bounds,
        }
    }

    fn recess(&self, at: usize) -> f32 {
        smooth(self.bounds[0] + self.soft, self.bounds[0] - self.soft, self.contrast[at])
    }

    fn edge(&self, at: usize) -> f32 {
        smooth(self.bounds[1] - self.soft, self.bounds[1] + self.soft, self.contrast[at])
    }
}

/// The mean around each pixel, of pixels that are the model's; a pixel with none around it keeps its own.
fn around(of: &[f32], owned: &[f32], (width, height): (usize, usize), reach: usize) -> Vec<f32> {
    let sums: Vec<[f32; 2]> = of.iter().zip(owned).map(|(own, part)| [own * part, *part]).collect();
    let rows = lines(&sums, width, height, [width, 1], reach);
    let both = lines(&rows, height, width, [1, width], reach);
    both.iter().zip(of).map(|([sum, parts], own)| if *parts > 0.01 { sum / parts } else { *own }).collect()
}

/// Sums over some pixels before and behind each, along lines of a length; `[a, b]`: a line further on, a pixel further on.
fn lines(of: &[[f32; 2]], long: usize, count: usize, [next, step]: [usize; 2], reach: usize) -> Vec<[f32; 2]> {
    let mut out = vec![[0.0; 2]; of.len()];
    let mut run = vec![[0.0_f64; 2]; long + 1];
    for line in 0..count {
        for at in 0..long {
            let own = of[line * next + at * step];
            run[at + 1] = [run[at][0] + f64::from(own[0]), run[at][1] + f64::from(own[1])];
        }
        for at in 0..long {
            let (from, to) = (at.saturating_sub(reach), (at + reach + 1).min(long));
            #[expect(clippy::cast_possible_truncation, reason = "sums of a few numbers")]
            let sum = [0, 1].map(|which: usize| (run[to][which] - run[from][which]) as f32);
            out[line * next + at * step] = sum;
        }
    }
    out
}

/// The place at a part of a length.
fn part_of(length: usize, part: f32) -> usize {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a part of a length")]
    let at = (length as f64 * f64::from(part.clamp(0.0, 1.0))) as usize;
    at.min(length.saturating_sub(1))
}

fn luminance([red, green, blue]: [f32; 3]) -> f32 {
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

/// What a screen's counts of light stand for.
fn linear() -> [f32; 256] {
    std::array::from_fn(|byte| {
        let coded = byte as f32 / 255.0;
        if coded <= 0.040_45 { coded / 12.92 } else { ((coded + 0.055) / 1.055).powf(2.4) }
    })
}
