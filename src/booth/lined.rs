//! A shaded view for paper: read in grey too, as each area ends at a line.

use super::bake::Baked;
use super::develop::{Code, Pixels, Shaded};
use super::ground::PAPER;
use super::mesh::NO_AREA;
use super::vector::mix;

/// What is nobody's: neither an area nor another part of the model.
const NOTHING: u16 = NO_AREA - 1;

/// How strongly a line covers what it runs over, and its light over pale and over dark surfaces.
const COVERS: f32 = 0.75;
const LIGHTS: [f32; 2] = [0.01, 0.42];

/// Surfaces darker than this have pale lines.
const DARK: f32 = 0.06;

impl Baked {
    /// A shaded view at half its size, on white, with a line around every area.
    pub fn lined(&self, shaded: &Shaded) -> Pixels {
        let mut colours = shaded.colours.clone();
        for (colour, seen) in colours.iter_mut().zip(self.covered()) {
            for (light, paper) in colour.iter_mut().zip(PAPER[1]) {
                *light = (*light / mix(paper, 1.0, seen)).min(1.0);
            }
        }
        for at in self.borders() {
            let own = colours[at];
            let light = 0.3 * own[0] + 0.6 * own[1] + 0.1 * own[2];
            colours[at] = own.map(|channel| mix(channel, LIGHTS[usize::from(light < DARK)], COVERS));
        }
        self.half(&colours, &Code::new())
    }

    /// How much of each pixel the model fills; all of it on a photograph.
    fn covered(&self) -> Vec<f32> {
        let mut covered = vec![if self.photographed { 1.0 } else { 0.0_f32 }; self.width * self.height];
        for spot in &self.spots {
            let seen = &mut covered[spot.pixel as usize];
            *seen = (*seen + spot.part).min(1.0);
        }
        covered
    }

    /// The pixels on both sides of where one area ends.
    fn borders(&self) -> Vec<usize> {
        let mut owners = vec![(0.5_f32, NOTHING); self.width * self.height];
        for spot in &self.spots {
            let owner = &mut owners[spot.pixel as usize];
            if spot.part >= owner.0 {
                *owner = (spot.part, spot.area);
            }
        }
        let is_border = |at: &usize| {
            let (x, y) = (at % self.width, at / self.width);
            let around = |x: usize, y: usize| owners[y.min(self.height - 1) * self.width + x.min(self.width - 1)].1;
            let own = around(x, y);
            [around(x + 1, y), around(x, y + 1), around(x.saturating_sub(1), y), around(x, y.saturating_sub(1))]
                .iter()
                .any(|other| *other != own)
        };
        (0..owners.len()).filter(is_border).collect()
    }
}
