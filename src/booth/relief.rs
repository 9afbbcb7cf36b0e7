//! The relief of a mesh, measured: how much of each area lies in hollows and on edges.

use super::maps::{self, Point};
use super::mesh::{Mesh, NO_AREA};
use super::vector::{cross, dot, length, sub, times, unit};

/// Cells of a map of depths, across and down.
const MAP: usize = 256;

/// At least so many points of a mesh are looked at.
const POINTS: u16 = 4000;

/// What was measured of a mesh.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Relief {
    /// Each area, by its number.
    pub areas: Vec<AreaRelief>,
    /// What belongs to no area.
    pub rest: AreaRelief,
}

/// What was measured of an area.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct AreaRelief {
    /// Its surface, in square units of the mesh.
    pub surface: f64,
    /// How much of it lies in recesses, on faces and on edges; together 1.
    pub zones: [f64; 3],
    /// How much of it the light reaches at all, from 0 to 1.
    pub open: f64,
}

/// Measures a mesh of so many areas.
pub fn measure(mesh: &Mesh, areas: usize) -> Relief {
    let mut relief = Relief { areas: vec![AreaRelief::default(); areas], rest: AreaRelief::default() };
    let Some(bounds) = mesh.bounds() else { return relief };
    let (points, owners) = scattered(mesh);
    let told = maps::tell(mesh, &bounds, &points, MAP, |_| 0.0);
    let mut sums = vec![[0.0_f64; 5]; areas + 1];
    for (at, (area, surface)) in owners.iter().enumerate() {
        let sum = &mut sums[usize::from(*area).min(areas)];
        let (hollow, bulge) = (told.hollow[at], told.bulge[at]);
        let (recess, edge) = (maps::recess_of(hollow, bulge), maps::edge_of(hollow, bulge));
        let edge = edge.min(1.0 - recess);
        let parts = [recess, 1.0 - recess - edge, edge, if told.open[at] > 0.04 { 1.0 } else { 0.0 }];
        for (sum, part) in sum.iter_mut().zip(parts) {
            *sum += surface * f64::from(part);
        }
        sum[4] += surface;
    }
    let told = |[recess, face, edge, open, all]: [f64; 5]| {
        let part = |sum: f64| if all > 0.0 { sum / all } else { 0.0 };
        AreaRelief { surface: all, zones: [recess, face, edge].map(part), open: part(open) }
    };
    for (area, sum) in relief.areas.iter_mut().zip(&sums) {
        *area = told(*sum);
    }
    relief.rest = told(sums[areas]);
    relief
}

/// Points spread over the surface, each with its area and how much surface it stands for.
fn scattered(mesh: &Mesh) -> (Vec<Point>, Vec<(u16, f64)>) {
    let size = |face: usize| mesh.triangle(face).map_or(0.0, |[a, b, c]| length(cross(sub(b, a), sub(c, a))) * 0.5);
    let all: f32 = (0..mesh.faces.len()).map(size).sum();
    let each = (all / f32::from(POINTS)).max(f32::MIN_POSITIVE);
    let (mut points, mut owners) = (Vec::new(), Vec::new());
    let outwards = if volume(mesh) < 0.0 { -1.0 } else { 1.0 };
    // What small faces leave over is carried on, so that many small ones are met as often as one large one.
    let mut carried = 0.5;
    for face in 0..mesh.faces.len() {
        let Some([from, to, third]) = mesh.triangle(face) else { continue };
        let (along, across) = (sub(to, from), sub(third, from));
        let own = size(face);
        carried += own / each;
        let mut number = 0_u16;
        while carried >= 1.0 && points.len() < 4 * usize::from(POINTS) {
            carried -= 1.0;
            number += 1;
            let (part, other) = folded(number);
            let place = [0, 1, 2].map(|axis| from[axis] + along[axis] * part + across[axis] * other);
            points.push(Point { place, normal: unit(times(cross(along, across), outwards)) });
            owners.push((mesh.areas.get(face).copied().unwrap_or(NO_AREA), f64::from(each)));
        }
    }
    (points, owners)
}

/// Six times the volume of a mesh: below zero where its faces are turned inside out.
fn volume(mesh: &Mesh) -> f32 {
    let Some(bounds) = mesh.bounds() else { return 0.0 };
    let middle = bounds.centre();
    let of = |face: usize| {
        let corners = mesh.triangle(face).map(|corners| corners.map(|corner| sub(corner, middle)));
        corners.map_or(0.0, |[one, two, three]| dot(one, cross(two, three)))
    };
    (0..mesh.faces.len()).map(of).sum()
}

/// The place of a point on a triangle: evenly spread, always the same.
fn folded(number: u16) -> (f32, f32) {
    let s = (f32::from(number) * 0.754_877_7).fract();
    let t = (f32::from(number) * 0.569_840_3).fract();
    if s + t > 1.0 { (1.0 - s, 1.0 - t) } else { (s, t) }
}
