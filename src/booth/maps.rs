//! What lies around a point: the mesh seen from many directions as maps of depths, and each point looked up in all.

use super::light;
use super::mesh::{Bounds, Mesh};
use super::raster::Brush;
use super::vector::{V3, across, add, dot, length, smooth, times};

/// A point on a surface, and where that looks.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Point {
    pub(crate) place: V3,
    pub(crate) normal: V3,
}

/// What was told about each point.
#[derive(Debug, Clone, Default)]
pub(crate) struct Told {
    /// How much light reaches it.
    pub(crate) light: Vec<f32>,
    /// How much of what could reach it from all sides does: 1 in the open.
    pub(crate) open: Vec<f32>,
    /// How much of its sky is shut by what is near.
    pub(crate) hollow: Vec<f32>,
    /// How far the surface falls away around it: above zero on an edge, below it in a groove.
    pub(crate) bulge: Vec<f32>,
    /// How much of what is thrown at each side of the model lands on it: 1 where it looks straight that way in the open.
    pub(crate) sides: Vec<[f32; 6]>,
}

/// How far away something may be and still make a hollow, in radii of the model.
const NEAR: f32 = 0.16;

/// How far around a point the surface is looked at, in radii of the model.
const RINGS: [f32; 2] = [0.022, 0.055];

/// Looks along each axis at all points.
pub(crate) fn tell(mesh: &Mesh, bounds: &Bounds, points: &[Point], size: usize, radiance: impl Fn(V3) -> f32) -> Told {
    let count = points.len();
    let mut sums = Sums::of(count);
    let mut map = Map::new(size);
    for (at, axis) in light::axes().enumerate() {
        map.look(mesh, bounds, axis);
        let ends = [axis, times(axis, -1.0)].map(|d| Along { light: radiance(d), thrown: light::thrown(d) });
        for (point, sum) in points.iter().zip(&mut sums.0) {
            sum.look(&map, point, &ends, at % 2 == 0);
        }
    }
    sums.told()
}

/// What comes along a direction.
#[derive(Debug, Clone, Copy)]
struct Along {
    light: f32,
    thrown: [f32; 6],
}

/// What has been summed up about one point.
#[derive(Debug, Clone, Copy, Default)]
struct Sum {
    light: f32,
    open: f32,
    hollow: f32,
    all: f32,
    bulge: [f32; 2],
    rings: [f32; 2],
    sides: [f32; 6],
}

struct Sums(Vec<Sum>);

impl Sums {
    fn of(count: usize) -> Self {
        Self(vec![Sum::default(); count])
    }

    fn told(&self) -> Told {
        let part = |sum: f32, all: f32| if all > 0.0 { sum / all } else { 0.0 };
        let bulge = |sum: &Sum| {
            let [small, large] = [0, 1].map(|ring| part(sum.bulge[ring], sum.rings[ring]));
            if small.abs() > large.abs() * 0.8 { small } else { mean(small, large) }
        };
        Told {
            light: self.0.iter().map(|sum| sum.light * 2.0 / light::AXES as f32).collect(),
            open: self.0.iter().map(|sum| part(sum.open, sum.all)).collect(),
            hollow: self.0.iter().map(|sum| part(sum.hollow, sum.all)).collect(),
            bulge: self.0.iter().map(bulge).collect(),
            sides: self.0.iter().map(|sum| sum.sides.map(landed)).collect(),
        }
    }
}

fn mean(a: f32, b: f32) -> f32 {
    (a + b) * 0.5
}

/// What lands of a coat that is thrown at a side, by the sum over all directions: a sixth of their pairs on a point that
/// looks straight there. What looks that way is covered, what looks past it gets a mist.
fn landed(sum: f32) -> f32 {
    smooth(0.10, 0.72, sum * 6.0 / light::AXES as f32)
}

impl Sum {
    fn look(&mut self, map: &Map, point: &Point, ends: &[Along; 2], around: bool) {
        let facing = dot(point.normal, map.axis);
        let (sign, along) = if facing > 0.0 { (1.0, &ends[0]) } else { (-1.0, &ends[1]) };
        let facing = facing.abs();
        if facing < 0.02 {
            return;
        }
        let shut = map.shut(point, sign, facing);
        self.all += facing;
        self.open += facing * (1.0 - shut.0);
        self.hollow += facing * shut.1;
        let arrives = facing * (1.0 - shut.0);
        self.light += along.light * arrives;
        for (sum, thrown) in self.sides.iter_mut().zip(along.thrown) {
            *sum += thrown * arrives;
        }
        if around && facing > 0.45 && shut.0 < 0.6 {
            for (ring, reach) in RINGS.into_iter().enumerate() {
                if let Some(falls) = map.falls(point, sign, facing, reach * map.radius) {
                    self.bulge[ring] += facing * falls;
                    self.rings[ring] += facing;
                }
            }
        }
    }
}

/// A mesh as seen along an axis: the highest and the lowest place along it in every cell.
struct Map {
    size: usize,
    axis: V3,
    u: V3,
    v: V3,
    low: [f32; 2],
    /// Cells for one unit of length.
    fine: f32,
    radius: f32,
    ends: [Vec<f32>; 2],
    seen: Vec<[f32; 3]>,
}

impl Map {
    fn new(size: usize) -> Self {
        let ends = [vec![f32::NEG_INFINITY; size * size], vec![f32::NEG_INFINITY; size * size]];
        let nowhere = [0.0; 3];
        Self {
            size,
            axis: nowhere,
            u: nowhere,
            v: nowhere,
            low: [0.0; 2],
            fine: 1.0,
            radius: 1.0,
            ends,
            seen: Vec::new(),
        }
    }

    /// Looks at a mesh along another axis.
    fn look(&mut self, mesh: &Mesh, bounds: &Bounds, axis: V3) {
        let (u, v) = across(axis);
        (self.axis, self.u, self.v, self.radius) = (axis, u, v, bounds.radius());
        self.seen.clear();
        self.seen.extend(mesh.corners.iter().map(|corner| [dot(*corner, u), dot(*corner, v), dot(*corner, axis)]));
        let (mut low, mut high) = ([f32::INFINITY; 2], [f32::NEG_INFINITY; 2]);
        for corner in mesh.faces.iter().flatten().filter_map(|at| self.seen.get(*at as usize)) {
            for side in 0..2 {
                low[side] = low[side].min(corner[side]);
                high[side] = high[side].max(corner[side]);
            }
        }
        let wide = (high[0] - low[0]).max(high[1] - low[1]).max(1e-9);
        self.fine = (self.size as f32 - 4.0) / wide;
        self.low = [low[0] - 2.0 / self.fine, low[1] - 2.0 / self.fine];
        for end in &mut self.ends {
            end.fill(f32::NEG_INFINITY);
        }
        let Self { size, seen, ends: [top, foot], low, fine, .. } = self;
        let mut brush = Brush::new(*size, *size, mesh.faces.len());
        for face in &mesh.faces {
            let spot =
                |at: u32| seen.get(at as usize).map(|p| [(p[0] - low[0]) * *fine, (p[1] - low[1]) * *fine, p[2]]);
            let [Some(one), Some(two), Some(three)] = face.map(spot) else { continue };
            brush.fill([one, two, three], |at, deep| {
                top[at] = top[at].max(deep);
                foot[at] = foot[at].max(-deep);
            });
        }
    }

    /// The cell of a place, not rounded.
    fn cell(&self, place: V3) -> (f32, f32) {
        ((dot(place, self.u) - self.low[0]) * self.fine, (dot(place, self.v) - self.low[1]) * self.fine)
    }

    /// How far up the mesh reaches in a cell, along the axis (`sign` 1) or against it.
    fn top(&self, x: i32, y: i32, sign: f32) -> f32 {
        let (Ok(x), Ok(y)) = (usize::try_from(x), usize::try_from(y)) else { return f32::NEG_INFINITY };
        if x >= self.size || y >= self.size {
            return f32::NEG_INFINITY;
        }
        self.ends[usize::from(sign < 0.0)][y * self.size + x]
    }

    /// How far the way to a point is shut, by anything and by what is near.
    fn shut(&self, point: &Point, sign: f32, facing: f32) -> (f32, f32) {
        let cell = 1.0 / self.fine;
        let place = add(point.place, times(point.normal, 1.3 * cell));
        let deep = dot(place, self.axis) * sign;
        let steep = (1.0 - facing * facing).max(0.0).sqrt() / facing;
        let least = cell * (0.25 + 0.6 * steep.min(4.0));
        let (x, y) = self.cell(place);
        let (x, y) = (x - 0.5, y - 0.5);
        let (left, top) = (floor(x), floor(y));
        let (right_part, foot_part) = (x - left as f32, y - top as f32);
        let (mut any, mut near) = (0.0, 0.0);
        let reach = NEAR * self.radius;
        for (dx, dy, part) in [
            (0, 0, (1.0 - right_part) * (1.0 - foot_part)),
            (1, 0, right_part * (1.0 - foot_part)),
            (0, 1, (1.0 - right_part) * foot_part),
            (1, 1, right_part * foot_part),
        ] {
            let gap = self.top(left + dx, top + dy, sign) - deep;
            if gap > least {
                let shut = part * ((gap - least) / (cell * 1.5)).min(1.0);
                any += shut;
                near += shut * (1.0 - gap / reach).max(0.0);
            }
        }
        (any, near)
    }

    /// How far the surface falls away from the plane of a point, at some distance around it: 1 where it falls steeply.
    fn falls(&self, point: &Point, sign: f32, facing: f32, reach: f32) -> Option<f32> {
        let (x, y) = self.cell(point.place);
        let deep = dot(point.place, self.axis) * sign;
        let slope = [dot(point.normal, self.u), dot(point.normal, self.v)];
        let (mut sum, mut count) = (0.0, 0.0);
        for (across, down) in [
            (1.0, 0.0),
            (0.707, 0.707),
            (0.0, 1.0),
            (-0.707, 0.707),
            (-1.0, 0.0),
            (-0.707, -0.707),
            (0.0, -1.0),
            (0.707, -0.707),
        ] {
            let (across, down): (f32, f32) = (across * reach, down * reach);
            let (cx, cy) = (floor(x + across * self.fine), floor(y + down * self.fine));
            // From the middle of the cell, where its depth was taken.
            let (across, down) = ((cx as f32 + 0.5 - x) / self.fine, (cy as f32 + 0.5 - y) / self.fine);
            let plane = -(across * slope[0] + down * slope[1]) / facing;
            let above = (self.top(cx, cy, sign) - deep - plane) * facing;
            if above < reach * 1.6 {
                sum += above.max(-reach);
                count += 1.0;
            }
        }
        (count > 4.0).then(|| -sum / (count * reach))
    }
}

/// The whole number below a place of a map; places far outside are no cell anyway.
#[expect(clippy::cast_possible_truncation, reason = "a cell of the map or none")]
fn floor(place: f32) -> i32 {
    ((place + 4096.0) as i32).saturating_sub(4096)
}

/// How far apart two places are.
pub(crate) fn apart(a: V3, b: V3) -> f32 {
    length(super::vector::sub(a, b))
}

/// How much of a hollow a point lies in, from 0 to 1.
pub(crate) fn recess_of(hollow: f32, bulge: f32) -> f32 {
    let shut = smooth(0.22, 0.50, hollow) * smooth(0.22, 0.02, bulge);
    let groove = smooth(0.10, 0.32, -bulge);
    shut.max(groove)
}

/// How much of an edge a point lies on, from 0 to 1.
pub(crate) fn edge_of(hollow: f32, bulge: f32) -> f32 {
    smooth(0.20, 0.38, bulge) * smooth(0.6, 0.3, hollow)
}
