//! The paper that the model stands on: how much of its light the model takes.

use super::camera::Camera;
use super::maps::Point;
use super::vector::{mix, smooth};

/// The paper, in linear light: in the middle and at the rim.
pub(crate) const PAPER: [[f32; 3]; 2] = [[0.862, 0.838, 0.792], [0.775, 0.748, 0.697]];

/// One place of the shadow for so many pixels across and down: shadows on paper are soft.
const COARSE: usize = 6;

/// The shadow fades out at so many radii from the middle of the model.
const FADES: (f32, f32) = (0.9, 2.1);

/// The places of the paper that may lie in the model's shadow.
#[derive(Debug, Clone)]
pub(crate) struct Paper {
    wide: usize,
    tall: usize,
    /// Which cells of a coarse grid over the picture see the paper, and how clearly.
    cells: Vec<(usize, f32)>,
}

impl Paper {
    /// The paper under a model, and the points of it that are to be looked up.
    pub(crate) fn of(camera: &Camera) -> (Self, Vec<Point>) {
        let (wide, tall) = (camera.width / COARSE + 2, camera.height / COARSE + 2);
        let level = camera.bounds.low[1];
        let (centre, radius) = (camera.bounds.centre(), camera.bounds.radius());
        let (mut cells, mut points) = (Vec::new(), Vec::new());
        for at in 0..wide * tall {
            let ray = camera.ray((at % wide * COARSE) as f32, (at / wide * COARSE) as f32);
            let far = (level - camera.eye[1]) / ray[1];
            if !(far > 0.0 && far.is_finite()) {
                continue;
            }
            let place = [camera.eye[0] + ray[0] * far, level, camera.eye[2] + ray[2] * far];
            let away = ((place[0] - centre[0]).powi(2) + (place[2] - centre[2]).powi(2)).sqrt() / radius;
            let clear = smooth(FADES.1, FADES.0, away);
            if clear > 0.0 {
                cells.push((at, clear));
                points.push(Point { place, normal: [0.0, 1.0, 0.0] });
            }
        }
        (Self { wide, tall, cells }, points)
    }

    /// The paper in every pixel, from what the points were told.
    pub(crate) fn shadow(&self, lit: &[f32], open_light: f32, (width, height): (usize, usize)) -> Vec<[f32; 3]> {
        let mut coarse = vec![1.0_f32; self.wide * self.tall];
        for ((at, clear), light) in self.cells.iter().zip(lit) {
            let left = (light / open_light).clamp(0.0, 1.0);
            coarse[*at] = 1.0 - clear * (1.0 - left) * 0.9;
        }
        let coarse = self.softened(&self.softened(&coarse));
        let mut all = Vec::with_capacity(width * height);
        for y in 0..height {
            for x in 0..width {
                let (left, top) = (x / COARSE, y / COARSE);
                let (dx, dy) = ((x % COARSE) as f32 / COARSE as f32, (y % COARSE) as f32 / COARSE as f32);
                let at = |x: usize, y: usize| coarse[y.min(self.tall - 1) * self.wide + x.min(self.wide - 1)];
                let upper = at(left, top) * (1.0 - dx) + at(left + 1, top) * dx;
                let lower = at(left, top + 1) * (1.0 - dx) + at(left + 1, top + 1) * dx;
                let light = upper * (1.0 - dy) + lower * dy;
                all.push(in_the_open(x as f32 / width as f32, y as f32 / height as f32).map(|channel| channel * light));
            }
        }
        all
    }

    /// Each cell as the mean of those around it.
    fn softened(&self, coarse: &[f32]) -> Vec<f32> {
        let around = |at: usize| {
            let (x, y) = (at % self.wide, at / self.wide);
            let (mut sum, mut count) = (0.0, 0.0);
            for row in y.saturating_sub(1)..(y + 2).min(self.tall) {
                for column in x.saturating_sub(1)..(x + 2).min(self.wide) {
                    sum += coarse[row * self.wide + column];
                    count += 1.0;
                }
            }
            sum / count
        };
        (0..coarse.len()).map(around).collect()
    }
}

/// The paper where nothing shades it, at a place of the picture.
fn in_the_open(x: f32, y: f32) -> [f32; 3] {
    let (x, y) = (x * 2.0 - 1.0, y * 2.0 - 1.0);
    let away = smooth(0.25, 1.9, x * x * 0.8 + (y - 0.1) * (y - 0.1));
    [0, 1, 2].map(|channel| mix(PAPER[0][channel], PAPER[1][channel], away))
}
