//! Where the picture is taken from.

use super::mesh::{Bounds, Mesh};
use super::raster::Spot;
use super::vector::{V3, cross, dot, sub, times, unit};

/// Where the picture is taken from, and how large it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// How far the model is turned: 0 from the front, 90 from the right-hand side of the picture.
    pub turn: f32,
    /// How high the camera stands, in degrees above the table.
    pub height: f32,
    /// The only area that has to be in the picture, where not all of them.
    pub near: Option<u16>,
    /// Pixels across.
    pub width: usize,
}

/// How far away the camera stands, in radii of the model.
const AWAY: f32 = 5.2;

/// The free space around the model, as a part of the picture.
const MARGIN: f32 = 0.07;

/// The widest and the tallest picture, height to width.
const SHAPES: (f32, f32) = (0.75, 1.25);

/// A camera that has a whole model in its picture.
#[derive(Debug, Clone)]
pub(crate) struct Camera {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) eye: V3,
    /// Across, up, and from the eye into the picture.
    axes: [V3; 3],
    /// Pixels for one unit at distance one, and where the middle is.
    scale: f32,
    shift: [f32; 2],
    pub(crate) bounds: Bounds,
}

impl Camera {
    pub(crate) fn of(mesh: &Mesh, view: &View) -> Option<Self> {
        let bounds = mesh.bounds()?;
        let (turn, rise) = (view.turn.to_radians(), view.height.clamp(-80.0, 85.0).to_radians());
        let towards = [turn.sin() * rise.cos(), rise.sin(), turn.cos() * rise.cos()];
        let forward = times(towards, -1.0);
        let right = unit(cross(forward, [0.0, 1.0, 0.0]));
        let axes = [right, cross(right, forward), forward];
        let centre = bounds.centre();
        let away = bounds.radius() * AWAY;
        let eye = [0, 1, 2].map(|axis| centre[axis] + towards[axis] * away);
        let mut camera = Self { width: view.width, height: view.width, eye, axes, scale: 1.0, shift: [0.0; 2], bounds };
        let wanted = |face: &usize| view.near.is_none_or(|near| mesh.area(*face) == near);
        let seen = |wanted: &dyn Fn(&usize) -> bool| {
            let corners = (0..mesh.faces.len()).filter(|face| wanted(face)).filter_map(|face| mesh.triangle(face));
            corners.flatten().fold(None, |frame: Option<[f32; 4]>, corner| {
                let [x, y, _] = camera.project(corner);
                let [left, right, low, high] = frame.unwrap_or([x, x, y, y]);
                Some([left.min(x), right.max(x), low.min(y), high.max(y)])
            })
        };
        let frame = seen(&wanted).or_else(|| seen(&|_| true))?;
        camera.fit(frame);
        Some(camera)
    }

    /// Fits a frame into the picture with some space around it.
    fn fit(&mut self, [left, right, low, high]: [f32; 4]) {
        let (wide, tall) = ((right - left).max(1e-9), (high - low).max(1e-9));
        let shape = (tall / wide).clamp(SHAPES.0, SHAPES.1);
        let width = self.width as f32;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a picture's height")]
        let rows = (width * shape) as usize;
        // An even number of rows, so that the smaller picture is exactly half of it.
        self.height = (rows & !1).max(2);
        let room = 1.0 - 2.0 * MARGIN;
        self.scale = (width * room / wide).min(self.height as f32 * room / tall);
        let middle = [(left + right) * 0.5, (low + high) * 0.5];
        self.shift = [width * 0.5 - middle[0] * self.scale, self.height as f32 * 0.5 - middle[1] * self.scale];
    }

    /// Where a point is seen, `times` as fine as the picture, and the reciprocal of its distance, which runs evenly over
    /// the picture.
    pub(crate) fn project(&self, p: V3) -> Spot {
        let from = sub(p, self.eye);
        let [right, up, forward] = self.axes;
        let near = 1.0 / dot(from, forward).max(1e-9);
        let (x, y) = (dot(from, right) * near, -dot(from, up) * near);
        [x * self.scale + self.shift[0], y * self.scale + self.shift[1], near]
    }

    /// The direction in which a place of the picture is seen; as long as it is at distance one into the picture.
    pub(crate) fn ray(&self, x: f32, y: f32) -> V3 {
        let (across, down) = ((x - self.shift[0]) / self.scale, (y - self.shift[1]) / self.scale);
        let [right, up, forward] = self.axes;
        [0, 1, 2].map(|axis| forward[axis] + right[axis] * across - up[axis] * down)
    }

    /// A direction that is told from the camera: to the right, up in the room, and towards the camera.
    pub(crate) fn room(&self, right: f32, up: f32, towards: f32) -> V3 {
        let back = unit([-self.axes[2][0], 0.0, -self.axes[2][2]]);
        let [across, ..] = self.axes;
        unit([0, 1, 2].map(|axis| across[axis] * right + if axis == 1 { up } else { 0.0 } + back[axis] * towards))
    }
}
