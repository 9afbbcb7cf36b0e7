//! The triangles of a face that has more corners than three.

/// A face of more corners than this is cut from its first corner on, whatever its shape: cutting it well takes time with
/// the square of its corners. Modelling programs write up to some dozens, and round caps of a hundred or two.
const MOST_CUT: usize = 200;

/// A turn the wrong way that spans less than this part of the face is rounding, and nothing of its surface to speak of.
const FLAT: f64 = 1e-6;

/// A corner in the plane of its face.
type Spot = [f64; 2];

/// The triangles of a face, by the places of its corners in it: all from the first corner where it bulges everywhere, and
/// else by cutting off one corner after the other that has nothing of the face in front of it.
pub(super) fn triangles(face: &[[f32; 3]]) -> Vec<[usize; 3]> {
    let hollow = (4..=MOST_CUT).contains(&face.len()).then(|| in_its_plane(face)).flatten();
    hollow.filter(|spots| !bulges(spots)).map_or_else(|| fan(face.len()), |spots| Cutting::of(&spots).all())
}

/// Triangles from the first corner to all others.
fn fan(corners: usize) -> Vec<[usize; 3]> {
    (2..corners).map(|at| [0, at - 1, at]).collect()
}

/// The corners as seen along the longest axis of the face's normal (by Newell), turning to the left; nothing where the
/// face has no surface.
fn in_its_plane(face: &[[f32; 3]]) -> Option<Vec<Spot>> {
    let first = face.first()?.map(f64::from);
    let from_first = |corner: &[f32; 3]| [0, 1, 2].map(|axis: usize| f64::from(corner[axis]) - first[axis]);
    let corners: Vec<[f64; 3]> = face.iter().map(from_first).collect();
    let mut normal = [0.0; 3];
    for (one, next) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        for (axis, sum) in normal.iter_mut().enumerate() {
            let (second, third) = ((axis + 1) % 3, (axis + 2) % 3);
            *sum += one[second] * next[third] - one[third] * next[second];
        }
    }
    let longest = (0..3).max_by(|one, other| normal[*one].abs().total_cmp(&normal[*other].abs()))?;
    let (second, third) = ((longest + 1) % 3, (longest + 2) % 3);
    let turned = if normal[longest] < 0.0 { [third, second] } else { [second, third] };
    let is_seen = normal[longest].abs() > 0.0;
    is_seen.then(|| corners.iter().map(|corner| turned.map(|axis| corner[axis])).collect())
}

/// Twice the surface of a triangle, below zero where it turns to the right.
fn turn(one: Spot, two: Spot, three: Spot) -> f64 {
    (two[0] - one[0]) * (three[1] - one[1]) - (two[1] - one[1]) * (three[0] - one[0])
}

/// Whether the face turns nowhere to the right, so that all of it is seen from its first corner.
fn bulges(spots: &[Spot]) -> bool {
    let nothing = [0.0; 2];
    let around = || spots.iter().zip(spots.iter().cycle().skip(1));
    let all: f64 = around().map(|(one, next)| turn(nothing, *one, *next)).sum();
    let next_but_one = spots.iter().cycle().skip(2);
    around().zip(next_but_one).all(|((one, two), three)| turn(*one, *two, *three) >= -FLAT * all)
}

/// A face of which one corner after the other is cut off.
struct Cutting<'a> {
    spots: &'a [Spot],
    /// The corners that are left, in their order.
    left: Vec<usize>,
}

impl<'a> Cutting<'a> {
    fn of(spots: &'a [Spot]) -> Self {
        Self { spots, left: (0..spots.len()).collect() }
    }

    /// All triangles. What crosses itself has in the end no corner that can be cut off: the rest is cut from its first.
    fn all(mut self) -> Vec<[usize; 3]> {
        let mut triangles = Vec::with_capacity(self.spots.len());
        let mut free: Vec<bool> = (0..self.left.len()).map(|at| self.is_free(at)).collect();
        while self.left.len() > 3 {
            let Some(at) = free.iter().position(|free| *free) else { break };
            triangles.push(self.around(at));
            self.left.remove(at);
            free.remove(at);
            // Nothing but its two neighbours looks another way now.
            let count = self.left.len();
            for beside in [(at + count - 1) % count, at % count] {
                free[beside] = self.is_free(beside);
            }
        }
        triangles.extend(fan(self.left.len()).into_iter().map(|face| face.map(|at| self.left[at])));
        triangles
    }

    /// The corner at a place of those that are left, between its neighbours.
    fn around(&self, at: usize) -> [usize; 3] {
        let count = self.left.len();
        [self.left[(at + count - 1) % count], self.left[at], self.left[(at + 1) % count]]
    }

    /// Whether a corner bulges, and no other one lies in the triangle that it makes with its neighbours.
    fn is_free(&self, at: usize) -> bool {
        let corners = self.around(at);
        let [one, two, three] = corners.map(|corner| self.spots[corner]);
        if turn(one, two, three) < 0.0 {
            return false;
        }
        let within = |spot: Spot| {
            // Where a slit leads to a hole, several corners lie at one place.
            let is_end = [one, two, three].contains(&spot);
            !is_end && turn(one, two, spot) >= 0.0 && turn(two, three, spot) >= 0.0 && turn(three, one, spot) >= 0.0
        };
        !self.left.iter().filter(|other| !corners.contains(other)).any(|other| within(self.spots[*other]))
    }
}
