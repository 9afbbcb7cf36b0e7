//! A view, baked: all that mesh and camera decide, so that drawing it in other colours is quick.

use super::camera::{Camera, View};
use super::ground::Paper;
use super::light::Lamps;
use super::maps::{self, Point, Told};
use super::mesh::Mesh;
use super::noise;
use super::sample::{self, Seen};
use super::vector::{V3, dot, smooth, sub, times, unit};

/// Cells of a map of depths, across and down.
const MAP: usize = 400;

/// A view of a mesh of which everything is known but the colours.
#[derive(Debug, Clone)]
pub struct Baked {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) spots: Vec<Spot>,
    /// Whether a photograph is what is seen beside the model, and not paper.
    pub(crate) photographed: bool,
    /// What is seen beside the model, in linear light.
    pub(crate) ground: Vec<[f32; 3]>,
}

/// One surface in one pixel.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Spot {
    pub(crate) pixel: u32,
    pub(crate) part: f32,
    pub(crate) area: u16,
    /// How bright it is: 1 in full light.
    pub(crate) light: f32,
    pub(crate) recess: f32,
    pub(crate) edge: f32,
    /// How far it looks up.
    pub(crate) up: f32,
    /// What it mirrors when matt metal, satin and gloss.
    pub(crate) mirrored: [f32; 3],
    /// How much more it mirrors for being seen aslant.
    pub(crate) aslant: f32,
    /// How much of what comes from each side lands on it: above, below, front, back, left, right.
    pub(crate) sides: [f32; 6],
    /// Coarse grain, streaks, fine grain and the lumps of a pattern, each spread evenly from 0 to 1.
    pub(crate) grain: [f32; 4],
}

impl Baked {
    /// Bakes a view; `None` where the mesh has no surface.
    pub fn of(mesh: &Mesh, view: &View) -> Option<Self> {
        let camera = Camera::of(mesh, view)?;
        let seen = sample::seen(mesh, &camera);
        let (paper, mut points) = Paper::of(&camera);
        let on_paper = points.len();
        let keys = looked_up(&seen, &camera);
        points.extend(keys.iter().map(|at| seen[*at].point));
        let lamps = Lamps::of(&camera);
        let told = maps::tell(mesh, &camera.bounds, &points, MAP, |d| lamps.radiance(d));
        let open = open_light(&lamps);
        let size = (camera.width, camera.height);
        let paper = paper.shadow(&told.light[..on_paper], open([0.0, 1.0, 0.0]), size);
        let own = spread(&seen, &keys, &told, on_paper, &camera);
        let key = lamps.key();
        let full = open(unit([0, 1, 2].map(|axis| key[axis] + 0.8 * camera.room(0.0, 0.2, 1.0)[axis])));
        let mut spots: Vec<Spot> =
            seen.iter().zip(own).map(|(seen, told)| spot(seen, told, full, &lamps, &camera)).collect();
        spread_evenly(&mut spots);
        Some(Self { width: camera.width, height: camera.height, spots, photographed: false, ground: paper })
    }

    /// Width and height that the pictures of a view will have; `None` where the mesh has no surface.
    pub fn size(mesh: &Mesh, view: &View) -> Option<(usize, usize)> {
        Camera::of(mesh, view).map(|camera| (camera.width, camera.height))
    }

    /// How many bytes it holds.
    pub fn weight(&self) -> usize {
        self.spots.len() * size_of::<Spot>() + self.width * self.height * 12
    }
}

/// How much light reaches a surface in the open, by where it looks.
fn open_light(lamps: &Lamps) -> impl Fn(V3) -> f32 {
    |normal| {
        let of = |d: V3| lamps.radiance(d) * dot(normal, d).max(0.0);
        let sum: f32 = super::light::axes().map(|axis| of(axis) + of(times(axis, -1.0))).sum();
        sum * 2.0 / super::light::AXES as f32
    }
}

/// What a spot is told: light, open sky, hollow, bulge, and what lands on it from each side.
type Own = [f32; 10];

/// What a spot is told of which nothing is known.
const ALONE: Own = [1.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];

/// One spot in so many pixels across and down is looked up; those between are told what their neighbours were.
const EVERY: usize = 3;

/// The spots that are looked up: all on a coarse grid, and those that have no neighbour there on the same surface.
fn looked_up(seen: &[Seen], camera: &Camera) -> Vec<usize> {
    let on_grid = |seen: &Seen| {
        let pixel = seen.pixel as usize;
        (pixel % camera.width).is_multiple_of(EVERY) && (pixel / camera.width).is_multiple_of(EVERY)
    };
    let mut keys: Vec<usize> = (0..seen.len()).filter(|at| on_grid(&seen[*at])).collect();
    let grid = Grid::of(seen, &keys, camera);
    let alone = |at: &usize| !on_grid(&seen[*at]) && !grid.around(seen, &seen[*at], 1).any(|(_, part)| part > 0.0);
    let alone: Vec<usize> = (0..seen.len()).filter(alone).collect();
    keys.extend(alone);
    keys.sort_unstable();
    keys
}

/// What was found out about the spots that were looked up, evened out and spread over all on the same surface.
fn spread(seen: &[Seen], keys: &[usize], told: &Told, from: usize, camera: &Camera) -> Vec<Own> {
    let grid = Grid::of(seen, keys, camera);
    let own = |key: usize| {
        let at = from + key;
        let [above, below, front, back, left, right] = told.sides[at];
        [told.light[at], told.open[at], told.hollow[at], told.bulge[at], above, below, front, back, left, right]
    };
    let one = |here: &Seen| {
        let (mut sum, mut parts): (Own, f32) = ([0.0; 10], 0.0);
        for (key, part) in grid.around(seen, here, 2) {
            for (sum, other) in sum.iter_mut().zip(own(key)) {
                *sum += other * part;
            }
            parts += part;
        }
        if parts > 0.0 { sum.map(|number| number / parts) } else { ALONE }
    };
    seen.iter().map(one).collect()
}

/// Spots by the coarse cell of the picture that they lie in.
struct Grid<'a> {
    keys: &'a [usize],
    wide: usize,
    tall: usize,
    width: usize,
    near: f32,
    starts: Vec<u32>,
    list: Vec<u32>,
}

impl<'a> Grid<'a> {
    fn of(seen: &[Seen], keys: &'a [usize], camera: &Camera) -> Self {
        let (wide, tall) = (camera.width.div_ceil(EVERY), camera.height.div_ceil(EVERY));
        let cell = |key: &usize| {
            let pixel = seen[*key].pixel as usize;
            pixel / camera.width / EVERY * wide + pixel % camera.width / EVERY
        };
        let mut starts = vec![0_u32; wide * tall + 1];
        for key in keys {
            starts[cell(key) + 1] += 1;
        }
        for at in 0..wide * tall {
            starts[at + 1] += starts[at];
        }
        let mut next = starts.clone();
        let mut list = vec![0_u32; keys.len()];
        for (number, key) in (0_u32..).zip(keys) {
            let next = &mut next[cell(key)];
            list[*next as usize] = number;
            *next += 1;
        }
        let near = camera.bounds.radius() * 0.045;
        Self { keys, wide, tall, width: camera.width, near, starts, list }
    }

    /// The spots around one on the same surface, by their places in the list of keys, with their weights.
    fn around<'s>(&'s self, seen: &'s [Seen], here: &'s Seen, reach: usize) -> impl Iterator<Item = (usize, f32)> + 's {
        let (x, y) = (here.pixel as usize % self.width, here.pixel as usize / self.width);
        let (column, row) = (x / EVERY, y / EVERY);
        let rows = row.saturating_sub(reach)..(row + reach + 1).min(self.tall);
        let columns = move || column.saturating_sub(reach)..(column + reach + 1).min(self.wide);
        let cells = rows.flat_map(move |row| columns().map(move |column| row * self.wide + column));
        let keys = cells.flat_map(|cell| self.starts[cell]..self.starts[cell + 1]).map(|at| self.list[at as usize]);
        let widest = (reach * EVERY + 1) as f32;
        keys.map(move |number| {
            let other = &seen[self.keys[number as usize]];
            let pixel = other.pixel as usize;
            let (dx, dy) = (x.abs_diff(pixel % self.width) as f32, y.abs_diff(pixel / self.width) as f32);
            let alike = other.area == here.area && dot(other.point.normal, here.point.normal) > 0.90;
            let far = maps::apart(other.point.place, here.point.place) / self.near;
            let part = (1.0 - dx.max(dy) / widest).max(0.0) * (1.0 - far).max(0.0);
            (number as usize, if alike { part } else { 0.0 })
        })
    }
}

fn spot(seen: &Seen, own: Own, full: f32, lamps: &Lamps, camera: &Camera) -> Spot {
    let [light, open, hollow, bulge, sides @ ..] = own;
    let Point { place, normal } = seen.point;
    let eye = unit(sub(camera.eye, place));
    let facing = dot(normal, eye).clamp(0.0, 1.0);
    let mirror = sub(times(normal, 2.0 * dot(normal, eye)), eye);
    let shaded = smooth(0.05, 0.85, open);
    let in_radii = times(place, 1.0 / camera.bounds.radius());
    Spot {
        pixel: seen.pixel,
        part: seen.part,
        area: seen.area,
        light: light / full,
        recess: maps::recess_of(hollow, bulge),
        edge: maps::edge_of(hollow, bulge),
        up: normal[1],
        sides,
        mirrored: [0.75, 0.30, 0.0].map(|dull| lamps.mirrored(mirror, dull) * shaded),
        aslant: (1.0 - facing).powi(5),
        grain: [
            noise::rough(times(in_radii, 26.0)),
            noise::rough([in_radii[0] * 30.0, in_radii[1] * 3.2, in_radii[2] * 30.0]),
            noise::rough(times(in_radii, 70.0)),
            noise::soft(times(in_radii, 4.5)),
        ],
    }
}

/// Which of a spot's grains is that of a pattern.
pub(crate) const PATTERN: usize = 3;

/// Grain comes in lumps around one half; after this each tenth of its range is on a tenth of the spots.
pub(crate) fn spread_evenly(spots: &mut [Spot]) {
    const STEPS: usize = 1024;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "grain runs from 0 to 1")]
    let step = |grain: f32| ((grain * STEPS as f32) as usize).min(STEPS - 1);
    for kind in 0..4 {
        let mut count = vec![0_usize; STEPS + 1];
        for spot in spots.iter() {
            count[step(spot.grain[kind]) + 1] += 1;
        }
        for at in 0..STEPS {
            count[at + 1] += count[at];
        }
        let all = spots.len().max(1) as f32;
        for spot in spots.iter_mut() {
            let at = step(spot.grain[kind]);
            let within = (spot.grain[kind] * STEPS as f32 - at as f32).clamp(0.0, 1.0);
            spot.grain[kind] = (count[at] as f32 + within * (count[at + 1] - count[at]) as f32) / all;
        }
    }
}
