//! The points that a picture is made of: what one pixel sees of the mesh, and more than one where it sees an outline.

use super::camera::Camera;
use super::maps::Point;
use super::mesh::Mesh;
use super::raster::Brush;
use super::vector::{V3, add, cross, dot, sub, times, unit};

/// A pixel is looked at in so many places across and down.
const FINE: usize = 2;

/// What a pixel sees of one surface.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Seen {
    pub(crate) pixel: u32,
    /// How much of the pixel it fills.
    pub(crate) part: f32,
    pub(crate) area: u16,
    pub(crate) point: Point,
}

/// Everything that a camera sees of a mesh, pixel by pixel.
pub(crate) fn seen(mesh: &Mesh, camera: &Camera) -> Vec<Seen> {
    let (wide, tall) = (camera.width * FINE, camera.height * FINE);
    let faces = nearest_faces(mesh, camera, wide, tall);
    let normals = mesh.normals();
    let mut seen = Vec::new();
    let mut groups: Vec<Seen> = Vec::new();
    for pixel in 0..camera.width * camera.height {
        let (x, y) = (pixel % camera.width, pixel / camera.width);
        groups.clear();
        for (dx, dy) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
            let (x, y) = (x * FINE + dx, y * FINE + dy);
            let Some(face) = faces[y * wide + x].checked_sub(1) else { continue };
            let (across, down) = ((x as f32 + 0.5) / FINE as f32, (y as f32 + 0.5) / FINE as f32);
            let Some(point) = hit(mesh, &normals, face as usize, camera, (across, down)) else { continue };
            join(&mut groups, mesh.area(face as usize), point);
        }
        let number = u32::try_from(pixel).unwrap_or(u32::MAX);
        seen.extend(groups.drain(..).map(|group| finished(group, number)));
    }
    seen
}

/// The face that is seen in every place, counted from 1; 0: none.
fn nearest_faces(mesh: &Mesh, camera: &Camera, wide: usize, tall: usize) -> Vec<u32> {
    let mut near = vec![0.0_f32; wide * tall];
    let mut faces = vec![0_u32; wide * tall];
    let fine = FINE as f32;
    let spots: Vec<[f32; 3]> =
        mesh.corners.iter().map(|p| camera.project(*p)).map(|[x, y, near]| [x * fine, y * fine, near]).collect();
    let mut brush = Brush::new(wide, tall, mesh.faces.len());
    for (number, face) in (1..).zip(&mesh.faces) {
        let [Some(a), Some(b), Some(c)] = face.map(|at| spots.get(at as usize).copied()) else { continue };
        brush.fill([a, b, c], |at, nearness| {
            if nearness > near[at] {
                near[at] = nearness;
                faces[at] = number;
            }
        });
    }
    faces
}

/// Where a ray meets a face, with the rounded normal there, turned to the camera.
fn hit(mesh: &Mesh, normals: &[[V3; 3]], face: usize, camera: &Camera, at: (f32, f32)) -> Option<Point> {
    let [a, b, c] = mesh.triangle(face)?;
    let ray = camera.ray(at.0, at.1);
    let (ab, ac) = (sub(b, a), sub(c, a));
    let flat = cross(ab, ac);
    let slant = dot(flat, ray);
    let far = dot(flat, sub(a, camera.eye)) / slant;
    let far = if far.is_finite() { far } else { return None };
    let place = add(camera.eye, times(ray, far));
    let from = sub(place, a);
    let all = dot(flat, flat);
    // The square of a tiny face is too small for a number, and that of a vast one too large: there the middle will do.
    let parts = [dot(cross(from, ac), flat) / all, dot(cross(ab, from), flat) / all];
    let [of_b, of_c] = if all > 0.0 && all.is_finite() { parts } else { [1.0 / 3.0; 2] };
    let of_b = of_b.clamp(0.0, 1.0);
    let of_c = of_c.clamp(0.0, 1.0 - of_b);
    let own = normals.get(face)?;
    let rounded = add(times(own[0], 1.0 - of_b - of_c), add(times(own[1], of_b), times(own[2], of_c)));
    let normal = unit(if dot(rounded, rounded) > 1e-6 { rounded } else { flat });
    // Seen from behind, as in a scan with holes, it looks the other way.
    let normal = if slant > 0.0 { times(normal, -1.0) } else { normal };
    Some(Point { place, normal })
}

/// Adds a place to what a pixel sees already of the same surface, or begins another.
fn join(groups: &mut Vec<Seen>, area: u16, point: Point) {
    let part = 1.0 / (FINE * FINE) as f32;
    for group in groups.iter_mut() {
        let own = unit(group.point.normal);
        if group.area == area && dot(own, point.normal) > 0.86 {
            group.part += part;
            group.point.place = add(group.point.place, point.place);
            group.point.normal = add(group.point.normal, point.normal);
            return;
        }
    }
    groups.push(Seen { pixel: 0, part, area, point });
}

fn finished(group: Seen, pixel: u32) -> Seen {
    let count = group.part * (FINE * FINE) as f32;
    let Point { place, normal } = group.point;
    Seen { pixel, point: Point { place: times(place, 1.0 / count), normal: unit(normal) }, ..group }
}

#[cfg(test)]
mod tests {
    use super::super::bake::Baked;
    use super::super::camera::View;
    use super::*;

    /// A corner of a cube, cut off at so many units from its tip.
    fn corner(long: f32) -> Mesh {
        let corners = vec![[0.0; 3], [long, 0.0, 0.0], [0.0, long, 0.0], [0.0, 0.0, long]];
        Mesh { corners, faces: vec![[0, 1, 2], [0, 1, 3], [0, 2, 3], [1, 2, 3]], areas: vec![0; 4] }
    }

    #[test]
    fn a_mesh_of_any_size_stops_nothing() {
        let view = View { turn: 20.0, height: 20.0, near: None, width: 40 };
        for long in [0.0, 1e-38, 1e-30, 1e-20, 1e-15, 1e-12, 1e-9, 1e15, 1e30, 3e38] {
            let _ = Baked::of(&corner(long), &view);
            let _ = super::super::relief::measure(&corner(long), 1);
        }
        for long in [1e-3, 1.0, 1e5] {
            assert!(Baked::of(&corner(long), &view).is_some_and(|baked| baked.spots.len() > 100), "{long}");
        }
    }
}
