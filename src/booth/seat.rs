//! Where a decal sits on an area: in the middle of its broadest parts, as far as they face the camera.

use super::bake::Spot;

/// So many pixels across and down are looked at as one.
const COARSE: usize = 3;

/// At most so many decals are shown on an area.
const MOST: usize = 2;

/// The largest half height of a decal, as a part of the picture's width.
const LARGEST: f32 = 0.032;

/// The smallest that can be seen, in pixels.
const SMALLEST: f32 = 4.0;

/// Surfaces that are seen more aslant than this carry no decal.
const ASLANT: f32 = 0.08;

/// Where one decal sits: its middle, and its half height, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Seat {
    x: f32,
    y: f32,
    reach: f32,
}

impl Seat {
    /// How far a pixel lies from the middle of the decal, a plain lozenge: 1 at its rim.
    pub(crate) fn away(&self, pixel: usize, width: usize) -> f32 {
        let (x, y) = ((pixel % width) as f32, (pixel / width) as f32);
        ((x - self.x).abs() / 1.7 + (y - self.y).abs()) / self.reach
    }
}

/// The seats of decals on an area of a picture; none where no part of it is broad enough.
pub(crate) fn seats(spots: &[Spot], area: u16, (width, height): (usize, usize)) -> Vec<Seat> {
    let (wide, tall) = (width / COARSE + 2, height / COARSE + 2);
    let mut far = vec![0.0_f32; wide * tall];
    for spot in spots.iter().filter(|spot| spot.area == area && spot.part > 0.5 && spot.aslant < ASLANT) {
        let at = spot.pixel as usize;
        far[(at / width / COARSE + 1) * wide + at % width / COARSE + 1] = f32::INFINITY;
    }
    grow(&mut far, wide);
    let mut seats: Vec<Seat> = Vec::new();
    let largest = LARGEST * width as f32;
    while seats.len() < MOST {
        let apart = |at: usize| {
            let (x, y) = place(at, wide);
            seats.iter().all(|seat: &Seat| (x - seat.x).hypot(y - seat.y) > 5.0 * seat.reach)
        };
        let free = (0..far.len()).filter(|at| apart(*at));
        let Some(broadest) = free.max_by(|one, other| far[*one].total_cmp(&far[*other]).then(other.cmp(one))) else {
            break;
        };
        let reach = (far[broadest] * COARSE as f32 * 0.5).min(largest);
        if reach < SMALLEST || seats.first().is_some_and(|first| reach < first.reach * 0.6) {
            break;
        }
        let (x, y) = place(broadest, wide);
        seats.push(Seat { x, y, reach });
    }
    seats
}

/// The pixel in the middle of a cell.
fn place(at: usize, wide: usize) -> (f32, f32) {
    let middle = |cell: usize| (cell as f32 - 0.5) * COARSE as f32;
    (middle(at % wide), middle(at / wide))
}

/// How far each cell lies from the nearest one that is nought, walking there and back.
fn grow(far: &mut [f32], wide: usize) {
    let steps = [(1, 1.0), (wide, 1.0), (wide + 1, 1.414), (wide - 1, 1.414)];
    for at in 0..far.len() {
        for (step, long) in steps {
            let other = at.checked_sub(step).map_or(0.0, |other| far[other]);
            far[at] = far[at].min(other + long);
        }
    }
    for at in (0..far.len()).rev() {
        for (step, long) in steps {
            let other = far.get(at + step).copied().unwrap_or_default();
            far[at] = far[at].min(other + long);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decals_sit_in_the_middle_of_broad_parts() {
        let (width, height) = (200, 100);
        let lies =
            |x: usize, y: usize| (20..60).contains(&x) && (20..60).contains(&y) || (120..160).contains(&x) && y > 50;
        let spots: Vec<Spot> = (0..width * height)
            .filter(|at| lies(at % width, at / width))
            .map(|at| Spot { pixel: u32::try_from(at).unwrap_or_default(), part: 1.0, area: 3, ..Spot::default() })
            .collect();
        let found = seats(&spots, 3, (width, height));
        assert_eq!(found.len(), 2);
        assert!((found[0].x - 40.0).abs() < 6.0 && (found[0].y - 40.0).abs() < 6.0 || found[0].x > 120.0, "{found:?}");
        assert!(seats(&spots, 4, (width, height)).is_empty());
    }
}
