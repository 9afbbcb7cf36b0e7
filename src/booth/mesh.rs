//! Triangles, each on one area, and their normals.

use std::collections::HashMap;

use super::vector::{V3, add, cross, dot, sub, times, unit};

/// The area of a triangle that belongs to none.
pub const NO_AREA: u16 = u16::MAX;

/// Faces that meet at less than this (cosine) are one smooth surface; at more there is an edge.
const CREASE: f32 = 0.74;

/// So many faces around a corner are looked at for its normal, spread over all of them: each corner of a face looks at all
/// around it, and thousands at one place would take time with their square. A model has some twenty at most, and a round
/// plate one for each of its slivers.
const MOST_AROUND: usize = 512;

/// Triangles in a space with `y` up and the front towards `z`.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Mesh {
    /// The corners.
    pub corners: Vec<[f32; 3]>,
    /// The triangles, by their corners.
    pub faces: Vec<[u32; 3]>,
    /// The area of each triangle.
    pub areas: Vec<u16>,
}

/// Where a mesh lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bounds {
    pub(crate) low: V3,
    pub(crate) high: V3,
}

impl Bounds {
    pub(crate) fn centre(&self) -> V3 {
        times(add(self.low, self.high), 0.5)
    }

    /// Half its diagonal.
    pub(crate) fn radius(&self) -> f32 {
        (super::vector::length(sub(self.high, self.low)) * 0.5).max(1e-12)
    }
}

impl Mesh {
    /// The corners of a triangle; nothing where a corner is missing.
    pub(crate) fn triangle(&self, face: usize) -> Option<[V3; 3]> {
        let [a, b, c] = *self.faces.get(face)?;
        let corner = |at: u32| self.corners.get(at as usize).copied();
        Some([corner(a)?, corner(b)?, corner(c)?])
    }

    /// The area of a triangle.
    pub(crate) fn area(&self, face: usize) -> u16 {
        self.areas.get(face).copied().unwrap_or(NO_AREA)
    }

    /// Where the corners of its triangles lie; `None` where it has none.
    pub(crate) fn bounds(&self) -> Option<Bounds> {
        let mut bounds: Option<Bounds> = None;
        for corner in (0..self.faces.len()).filter_map(|face| self.triangle(face)).flatten() {
            let known = bounds.get_or_insert(Bounds { low: corner, high: corner });
            let Bounds { low, high } = known;
            for ((low, high), at) in low.iter_mut().zip(high).zip(corner) {
                *low = low.min(at);
                *high = high.max(at);
            }
        }
        bounds
    }

    /// The normal of each corner of each triangle: rounded where faces meet smoothly, sharp where there is an edge.
    pub(crate) fn normals(&self) -> Vec<[V3; 3]> {
        let (joined, count) = self.joined();
        let flat: Vec<V3> = (0..self.faces.len())
            .map(|face| self.triangle(face).map_or([0.0; 3], |[a, b, c]| cross(sub(b, a), sub(c, a))))
            .collect();
        let around = Around::of(&self.faces, &joined, count);
        let units: Vec<V3> = flat.iter().map(|normal| unit(*normal)).collect();
        let at_corner = |face: usize, corner: u32| {
            let own = units[face];
            let mut sum = [0.0; 3];
            for other in around.of_corner(joined[corner as usize]) {
                if dot(own, units[*other as usize]) > CREASE {
                    sum = add(sum, flat[*other as usize]);
                }
            }
            unit(if dot(sum, sum) > 0.0 { sum } else { own })
        };
        let known = |corner: &u32| (*corner as usize) < joined.len();
        let of_face = |(face, corners): (usize, &[u32; 3])| {
            if corners.iter().all(known) { corners.map(|corner| at_corner(face, corner)) } else { [[0.0, 1.0, 0.0]; 3] }
        };
        self.faces.iter().enumerate().map(of_face).collect()
    }

    /// For each corner the first one that is at the same place, and how many corners there are.
    fn joined(&self) -> (Vec<u32>, usize) {
        let mut first: HashMap<[u32; 3], u32> = HashMap::with_capacity(self.corners.len());
        let key = |corner: &V3| corner.map(|number| (number + 0.0).to_bits());
        let number = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
        let joined =
            self.corners.iter().enumerate().map(|(at, corner)| *first.entry(key(corner)).or_insert(number(at)));
        (joined.collect(), self.corners.len())
    }
}

/// The faces around each corner, one list behind the other.
struct Around {
    starts: Vec<u32>,
    faces: Vec<u32>,
}

impl Around {
    fn of(faces: &[[u32; 3]], joined: &[u32], corners: usize) -> Self {
        let place = |corner: &u32| joined.get(*corner as usize).map(|at| *at as usize);
        let mut starts = vec![0_u32; corners + 1];
        for at in faces.iter().flatten().filter_map(place) {
            starts[at + 1] += 1;
        }
        for at in 0..corners {
            starts[at + 1] += starts[at];
        }
        let mut next = starts.clone();
        let mut list = vec![0_u32; starts[corners] as usize];
        for (face, corners) in faces.iter().enumerate() {
            for at in corners.iter().filter_map(place) {
                list[next[at] as usize] = u32::try_from(face).unwrap_or(u32::MAX);
                next[at] += 1;
            }
        }
        Self { starts, faces: list }
    }

    /// The faces around a corner, or [`MOST_AROUND`] of them at most.
    fn of_corner(&self, at: u32) -> impl Iterator<Item = &u32> {
        let at = at as usize;
        let all = &self.faces[self.starts[at] as usize..self.starts[at + 1] as usize];
        all.iter().step_by(all.len().div_ceil(MOST_AROUND).max(1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A fan of faces around one edge, over a good part of a turn.
    fn fan(faces: u16) -> Mesh {
        let turn = |at: u16| f32::from(at) / f32::from(faces);
        let mut mesh = Mesh { corners: vec![[0.0; 3], [0.0, 1.0, 0.0]], ..Mesh::default() };
        mesh.corners.extend((0..faces).map(|at| [turn(at).cos(), 0.5, turn(at).sin()]));
        mesh.faces.extend((0..u32::from(faces)).map(|at| [0, 1, at + 2]));
        mesh
    }

    #[test]
    fn of_thousands_of_faces_at_one_edge_only_some_are_looked_at() {
        for (faces, looked_at) in [(100, 100), (512, 512), (513, 257), (48_000, 511)] {
            let mesh = fan(faces);
            let (joined, count) = mesh.joined();
            let around = Around::of(&mesh.faces, &joined, count);
            let seen: Vec<u32> = around.of_corner(0).copied().collect();
            assert_eq!(seen.len(), looked_at, "{faces}");
            assert!(seen.last().is_some_and(|last| last + 100 > u32::from(faces)), "they are spread over all of them");
        }
    }

    #[test]
    fn faces_at_one_edge_are_rounded_alike_however_many_there_are() {
        let middle = |faces: u16| fan(faces).normals()[usize::from(faces / 2)][0];
        let (few, many) = (middle(400), middle(20_000));
        assert!(dot(few, many) > 0.9999 && (dot(many, many) - 1.0).abs() < 1e-3, "{few:?} {many:?}");
    }
}
