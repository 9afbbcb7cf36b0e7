//! Which pixels a triangle covers, and how deep it lies there.

/// A corner on a picture: across, down, and how deep.
pub(crate) type Spot = [f32; 3];

/// How often a picture may be looked at all over for its triangles. The meshes of models come to some fifteen times, a round
/// plate cut into two hundred slivers to fifty; thousands of triangles on top of each other would take minutes.
const LAYERS: usize = 200;

/// How often it may be once more for the triangles that come after these.
const MORE_LAYERS: usize = 50;

/// Puts the triangles of a mesh onto a picture, one after the other, in a time that their number and the picture's size bound.
pub(crate) struct Brush {
    width: usize,
    height: usize,
    /// The pixels that may still be looked at without a thought.
    left: usize,
    /// The pixels that each triangle may cost after that.
    share: f32,
    /// Which part of a triangle is owed to those that were left out.
    owed: f32,
}

impl Brush {
    /// The brush for a picture of this size and so many triangles.
    pub(crate) fn new(width: usize, height: usize, triangles: usize) -> Self {
        let pixels = width * height;
        let share = (pixels * MORE_LAYERS) as f32 / triangles.max(1) as f32;
        Self { width, height, left: pixels * LAYERS, share, owed: 0.0 }
    }

    /// Calls `set` with place and depth of every pixel whose middle lies in a triangle; depth runs evenly over the picture.
    /// Of large triangles that come after all too many others only some are put there: what they would show, those show.
    pub(crate) fn fill(&mut self, corners: [Spot; 3], set: impl FnMut(usize, f32)) {
        let Some(face) = Face::of((self.width, self.height), corners) else { return };
        if let Some(left) = self.left.checked_sub(face.boxed()) {
            self.left = left;
            face.fill(self.width, set);
            return;
        }
        self.owed += (self.share / face.cost()).min(1.0);
        if self.owed >= 1.0 {
            self.owed -= 1.0;
            face.fill_between_sides(self.width, set);
        }
    }
}

/// A triangle on a picture.
struct Face {
    from: Spot,
    /// How much of its second and of its third corner is in a pixel more from pixel to pixel, across and down.
    across: [f32; 2],
    down: [f32; 2],
    /// How much deeper these corners lie than the first.
    deep: [f32; 2],
    columns: (usize, usize),
    rows: (usize, usize),
    /// The pixels that it covers.
    covers: f32,
}

impl Face {
    /// A triangle, if it covers anything of a picture of this size.
    fn of((width, height): (usize, usize), [a, b, c]: [Spot; 3]) -> Option<Self> {
        let double = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
        if double == 0.0 || !double.is_finite() {
            return None;
        }
        let columns = span(a[0].min(b[0]).min(c[0]), a[0].max(b[0]).max(c[0]), width)?;
        let rows = span(a[1].min(b[1]).min(c[1]), a[1].max(b[1]).max(c[1]), height)?;
        let part = 1.0 / double;
        Some(Self {
            from: a,
            across: [(c[1] - a[1]) * part, (a[1] - b[1]) * part],
            down: [(a[0] - c[0]) * part, (b[0] - a[0]) * part],
            deep: [b[2] - a[2], c[2] - a[2]],
            columns,
            rows,
            covers: double.abs() * 0.5,
        })
    }

    /// The pixels of the box around it.
    fn boxed(&self) -> usize {
        (self.columns.1 - self.columns.0) * (self.rows.1 - self.rows.0)
    }

    /// The pixels that are looked at where only what lies between its sides is.
    fn cost(&self) -> f32 {
        let rows = (self.rows.1 - self.rows.0) as f32;
        (self.covers + 2.0 * rows).min(self.boxed() as f32)
    }

    /// How much of the second and of the third corner is in the first pixel of a row.
    fn start(&self, y: usize) -> [f32; 2] {
        let (from_left, from_top) = (self.columns.0 as f32 + 0.5 - self.from[0], y as f32 + 0.5 - self.from[1]);
        [0, 1].map(|end: usize| from_left * self.across[end] + from_top * self.down[end])
    }

    fn depth(&self, [of_b, of_c]: [f32; 2]) -> Option<f32> {
        let within = of_b >= 0.0 && of_c >= 0.0 && of_b + of_c <= 1.0;
        within.then(|| self.from[2] + of_b * self.deep[0] + of_c * self.deep[1])
    }

    /// Looks at every pixel of the box around it.
    fn fill(&self, width: usize, mut set: impl FnMut(usize, f32)) {
        for y in self.rows.0..self.rows.1 {
            let [mut of_b, mut of_c] = self.start(y);
            for x in self.columns.0..self.columns.1 {
                if let Some(deep) = self.depth([of_b, of_c]) {
                    set(y * width + x, deep);
                }
                of_b += self.across[0];
                of_c += self.across[1];
            }
        }
    }

    /// Looks in each row only at what lies between its sides, and a pixel more. That is quicker for slivers; but what is
    /// rounded is rounded otherwise, and the pictures that there are would change by a hair.
    fn fill_between_sides(&self, width: usize, mut set: impl FnMut(usize, f32)) {
        let [b_across, c_across] = self.across;
        let whole = (self.columns.1 - self.columns.0) as f32;
        for y in self.rows.0..self.rows.1 {
            let [of_b, of_c] = self.start(y);
            let sides = [(of_b, b_across), (of_c, c_across), (1.0 - of_b - of_c, -b_across - c_across)];
            let (low, high) = sides.into_iter().fold((0.0, whole), narrowed);
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the box")]
            let [low, high] = [low - 1.0, high + 2.0].map(|at: f32| at.clamp(0.0, whole) as usize);
            for step in low..high {
                let far = step as f32;
                if let Some(deep) = self.depth([of_b + far * b_across, of_c + far * c_across]) {
                    set(y * width + self.columns.0 + step, deep);
                }
            }
        }
    }
}

/// The steps of a row at which a number that begins so and grows so is not below nought.
fn narrowed((low, high): (f32, f32), (start, grows): (f32, f32)) -> (f32, f32) {
    let turns = -start / grows;
    if grows > 0.0 {
        (low.max(turns), high)
    } else if grows < 0.0 {
        (low, high.min(turns))
    } else {
        (low, if start < 0.0 { -2.0 } else { high })
    }
}

/// The pixels whose middles lie between two places, within a picture.
fn span(low: f32, high: f32, most: usize) -> Option<(usize, usize)> {
    let low = (low - 0.5).ceil().max(0.0);
    let high = (high - 0.5).floor().min(most as f32 - 1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "both lie within the picture")]
    (low <= high).then(|| (low as usize, high as usize + 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIDE: usize = 40;

    fn covered(face: &Face, between_sides: bool) -> Vec<usize> {
        let mut seen = Vec::new();
        if between_sides {
            face.fill_between_sides(SIDE, |at, _| seen.push(at));
        } else {
            face.fill(SIDE, |at, _| seen.push(at));
        }
        seen
    }

    #[test]
    fn between_its_sides_lies_the_whole_triangle() {
        let ends = [[1.2, 2.3, 0.0], [37.9, 5.1, 1.0], [12.4, 38.8, 2.0], [-20.0, 11.7, 0.5], [60.3, 30.9, 3.0]];
        for (at, a) in ends.iter().enumerate() {
            for (b, c) in ends.iter().skip(at + 1).flat_map(|b| ends.iter().map(move |c| (b, c))) {
                let Some(face) = Face::of((SIDE, SIDE), [*a, *b, *c]) else { continue };
                assert_eq!(covered(&face, true), covered(&face, false), "{a:?} {b:?} {c:?}");
            }
        }
    }

    #[test]
    fn triangles_on_top_of_each_other_cost_no_more_than_some_layers() {
        let side = SIDE as f32;
        let triangles = 40 * LAYERS;
        let mut brush = Brush::new(SIDE, SIDE, triangles);
        let (mut pixels, mut last) = (0, 0);
        for number in 0..triangles {
            brush.fill([[0.0, 0.0, 1.0], [side, 0.0, 1.0], [0.0, side, 1.0]], |_, _| {
                pixels += 1;
                last = number;
            });
        }
        assert!(pixels < SIDE * SIDE * (LAYERS + MORE_LAYERS), "{pixels}");
        assert!(last > triangles - 200, "those at the end are among what is drawn: {last}");
    }

    #[test]
    fn small_triangles_are_drawn_after_however_many_large_ones() {
        let side = SIDE as f32;
        let mut brush = Brush::new(SIDE, SIDE, 3000);
        for _ in 0..2999 {
            brush.fill([[0.0, 0.0, 1.0], [side, 0.0, 1.0], [0.0, side, 1.0]], |_, _| {});
        }
        let mut pixels = 0;
        brush.fill([[3.0, 3.0, 2.0], [6.0, 3.0, 2.0], [3.0, 6.0, 2.0]], |_, _| pixels += 1);
        assert!(pixels > 0);
    }
}
