//! A shaded view as pixels, in all sizes.

use super::bake::Baked;
use super::ground::PAPER;

/// A picture, three bytes a pixel, row by row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pixels {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Red, green and blue of each.
    pub bytes: Vec<u8>,
}

/// A tiny picture has one pixel for so many across and down.
pub(crate) const TINY: usize = 6;

/// How much brighter a tiny picture shows what is lifted, and how far it lets the rest go towards paper.
const LIFT: f32 = 0.12;
const FADE: f32 = 0.25;

/// A view in colours, in linear light.
#[derive(Debug)]
pub struct Shaded {
    pub(crate) colours: Vec<[f32; 3]>,
    pub(crate) tiny: Tiny,
}

impl Baked {
    /// A shaded view tiny, at half its size, and as it is.
    pub fn develop(&self, Shaded { colours, tiny }: &Shaded) -> [Pixels; 3] {
        let code = Code::new();
        let mut of_tiny = Vec::with_capacity(tiny.cells.len() * 3);
        for cell in &tiny.cells {
            of_tiny.extend_from_slice(&cell.map(|light| code.of(light / (TINY * TINY) as f32)));
        }
        let mut bytes = Vec::with_capacity(colours.len() * 3);
        for colour in colours {
            bytes.extend_from_slice(&colour.map(|light| code.of(light)));
        }
        [
            Pixels { width: tiny.width, height: tiny.height, bytes: of_tiny },
            self.half(colours, &code),
            Pixels { width: self.width, height: self.height, bytes },
        ]
    }

    /// A picture of half the size.
    pub(crate) fn half(&self, colours: &[[f32; 3]], code: &Code) -> Pixels {
        let (width, height) = (self.width / 2, self.height / 2);
        let mut bytes = Vec::with_capacity(width * height * 3);
        for rows in colours.chunks_exact(self.width * 2).take(height) {
            let (upper, lower) = rows.split_at(self.width);
            for (above, below) in upper.chunks_exact(2).zip(lower.chunks_exact(2)) {
                let mean = |channel: usize| above.iter().chain(below).map(|light| light[channel]).sum::<f32>() * 0.25;
                bytes.extend_from_slice(&[0, 1, 2].map(|channel| code.of(mean(channel))));
            }
        }
        Pixels { width, height, bytes }
    }
}

/// The tiny picture in the making: sums over the pixels of each of its own.
#[derive(Debug)]
pub(crate) struct Tiny {
    width: usize,
    height: usize,
    cells: Vec<[f32; 3]>,
}

impl Tiny {
    pub(crate) fn of(width: usize, height: usize) -> Self {
        let (width, height) = ((width / TINY).max(1), (height / TINY).max(1));
        Self { width, height, cells: vec![[0.0; 3]; width * height] }
    }

    /// Makes a part of a pixel brighter than it is, or lets it go towards paper. Pixels at the foot and at the right may
    /// lie in none of its own.
    pub(crate) fn change(&mut self, (x, y): (usize, usize), part: f32, colour: [f32; 3], lifted: bool) {
        let column = x / TINY;
        let cell = if column < self.width { self.cells.get_mut(y / TINY * self.width + column) } else { None };
        let Some(cell) = cell else { return };
        for channel in 0..3 {
            let own = colour[channel];
            let more = if lifted { own * LIFT + 0.015 } else { (PAPER[0][channel] - own) * FADE };
            cell[channel] += more * part;
        }
    }

    pub(crate) fn add(&mut self, colours: &[[f32; 3]], width: usize) {
        for (row, colours) in colours.chunks_exact(width).enumerate() {
            let cells = self.cells.chunks_exact_mut(self.width).nth(row / TINY);
            for (cell, colours) in cells.into_iter().flatten().zip(colours.chunks(TINY)) {
                for colour in colours {
                    for channel in 0..3 {
                        cell[channel] += colour[channel];
                    }
                }
            }
        }
    }
}

/// Light as a screen counts it.
pub(crate) struct Code(Vec<u8>);

impl Code {
    const STEPS: usize = 8192;

    pub(crate) fn new() -> Self {
        let of = |at: usize| {
            let light = at as f32 / (Self::STEPS - 1) as f32;
            let coded = if light <= 0.003_130_8 { light * 12.92 } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 };
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 255")]
            let byte = (coded * 255.0 + 0.5) as u8;
            byte
        };
        Self((0..Self::STEPS).map(of).collect())
    }

    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the table")]
    pub(crate) fn of(&self, light: f32) -> u8 {
        // Very bright light is bent before it is cut off.
        let bent = if light > 0.9 { 0.9 + (light - 0.9) / (1.0 + (light - 0.9) * 5.0) } else { light };
        self.0[((bent.max(0.0) * (Self::STEPS - 1) as f32 + 0.5) as usize).min(Self::STEPS - 1)]
    }
}
