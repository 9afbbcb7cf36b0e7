//! The light of the booth: a soft box above, to the left and in front; a pale room around; paper below.

use super::camera::Camera;
use super::vector::{V3, dot, smooth, unit};

/// So many pairs of opposite directions are looked along.
pub(crate) const AXES: usize = 36;

/// Directions spread evenly over half a sphere; the other half are their opposites.
pub(crate) fn axes() -> impl Iterator<Item = V3> {
    (0..AXES).map(|at| {
        let y = (at as f32 + 0.5) / AXES as f32;
        let (around, wide) = (at as f32 * 2.399_963_2 + 0.4, (1.0 - y * y).sqrt());
        unit([wide * around.cos(), y, wide * around.sin()])
    })
}

/// The sides of a model: above, below, front, back, left, right.
pub(crate) const SIDES: [V3; 6] =
    [[0.0, 1.0, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, 1.0], [0.0, 0.0, -1.0], [-1.0, 0.0, 0.0], [1.0, 0.0, 0.0]];

/// How much of what is thrown at each side of a model comes along a direction: most of it straight from there.
pub(crate) fn thrown(d: V3) -> [f32; 6] {
    SIDES.map(|side| dot(d, side).max(0.0).powi(4))
}

/// Where the lamps stand, told from the camera.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Lamps {
    key: V3,
    rim: V3,
}

impl Lamps {
    pub(crate) fn of(camera: &Camera) -> Self {
        Self { key: camera.room(-0.55, 0.95, 0.62), rim: camera.room(0.85, 0.45, -0.35) }
    }

    /// How much light comes from a direction, for what scatters it.
    pub(crate) fn radiance(&self, d: V3) -> f32 {
        let lamp = 2.4 * smooth(0.62, 0.97, dot(d, self.key)) + 0.35 * smooth(0.5, 0.98, dot(d, self.rim));
        let room = if d[1] > 0.0 { 0.42 + 0.40 * d[1] } else { 0.30 };
        lamp + room
    }

    /// What a surface mirrors from a direction; the duller it is, the softer.
    pub(crate) fn mirrored(&self, d: V3, dull: f32) -> f32 {
        let soft = 0.03 + 0.5 * dull;
        let peak = 1.0 / (1.0 + 4.0 * dull);
        let lamp = 3.4 * peak * smooth(0.90 - soft, 0.90 + soft * 0.16, dot(d, self.key));
        let rim = 1.1 * peak * smooth(0.86 - soft, 0.86 + soft * 0.25, dot(d, self.rim));
        let room = 0.30 + 0.42 * smooth(-0.25 - dull, 0.45 + dull, d[1]);
        lamp + rim + room
    }

    /// The direction of the brightest light.
    pub(crate) fn key(&self) -> V3 {
        self.key
    }
}
