//! A near view in a corner of the picture, where what is new takes so little of it that nobody would find it.

use super::bake::{Baked, Spot};
use super::shade::AreaLook;

/// What is new is shown near where it fills less than this part of the picture.
const SMALL: f32 = 0.04;

/// Fewer pixels than this are only a glimpse behind something else.
const GLIMPSE: f32 = 24.0;

/// The side of the near view, as a part of the picture's shorter one, and how much of the model it may then hide, as a
/// part of itself.
const SIDES: [(f32, f32); 2] = [(0.36, 0.14), (0.27, 0.30)];

/// How many times larger it shows things; less where so much more of what is new is seen then.
const ZOOMS: [f32; 2] = [2.5, 1.6];
const MORE: f32 = 1.4;

/// With this part of what is new in it, a near view shows all of it.
const WHOLE: f32 = 0.97;

/// Its rim and that of its place on the model, in linear light, and their strengths in pixels.
const RIM: [[f32; 3]; 2] = [[0.93, 0.92, 0.90], [0.10, 0.09, 0.08]];
const STRONG: [usize; 2] = [5, 2];

/// One place is looked at in so many pixels across and down.
const COARSE: usize = 8;

/// A square of the picture: its left and upper edge, and its side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Square {
    left: usize,
    top: usize,
    side: usize,
}

impl Baked {
    /// Puts a near view of what is new into a picture, where that is small.
    pub(crate) fn add_near_view(&self, out: &mut [[f32; 3]], areas: &[AreaLook], rest: &AreaLook) {
        let is_new = |spot: &Spot| areas.get(usize::from(spot.area)).unwrap_or(rest).lifted;
        if !areas.iter().chain([rest]).any(|look| look.lifted) {
            return;
        }
        let new: f32 = self.spots.iter().filter(|spot| is_new(spot)).map(|spot| spot.part).sum();
        if new < GLIMPSE || new > SMALL * out.len() as f32 {
            return;
        }
        let all = Sums::of(self, |_| 1.0);
        let new = Sums::of(self, |spot| if is_new(spot) { 1.0 } else { 0.0 });
        let place = |(part, hides)| self.places(&all, &new, part, hides);
        let Some((from, to)) = SIDES.into_iter().find_map(place) else { return };
        let near: Vec<[f32; 3]> =
            (0..to.side * to.side).map(|at| self.enlarged(out, from, (at % to.side, at / to.side), to.side)).collect();
        self.frame(out, from);
        for (row, near) in near.chunks_exact(to.side).enumerate() {
            let start = (to.top + row) * self.width + to.left;
            out[start..start + to.side].copy_from_slice(near);
        }
        self.frame(out, to);
    }

    /// What is shown near, and where; `None` where that would hide too much.
    fn places(&self, all: &Sums, new: &Sums, part: f32, hides: f32) -> Option<(Square, Square)> {
        let shorter = self.width.min(self.height);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a part of the picture's side")]
        let [side, nearest, wider] =
            [part, part / ZOOMS[0], part / ZOOMS[1]].map(|part| (shorter as f32 * part) as usize);
        let margin = side / 24 + STRONG[0];
        if nearest < COARSE || side + 2 * margin > shorter {
            return None;
        }
        let whole = (self.width, self.height);
        let (one, other) = (new.fullest(nearest, whole), new.fullest(wider, whole));
        // An eye that belongs to a beak is not cut off for its sake.
        let total = new.up_to.last().copied().unwrap_or_default() * WHOLE;
        let only_wider = other.0 >= total && one.0 < total;
        let from = if only_wider || other.0 > one.0 * MORE { other.1 } else { one.1 };
        let (right, foot) = (self.width - side - margin, self.height - side - margin);
        let corners = [(right, margin), (margin, margin), (right, foot), (margin, foot)];
        let squares = corners.map(|(left, top)| Square { left, top, side });
        let apart = |square: &Square| !square.touches(from);
        let hidden = |square: &Square| {
            let [x, y] = [square.left, square.top].map(|at| at / COARSE);
            all.within(x, y, side / COARSE + 1) / (side * side) as f32 + 4.0 * new.within(x, y, side / COARSE + 1)
        };
        let to = squares.into_iter().filter(apart).min_by(|one, other| hidden(one).total_cmp(&hidden(other)))?;
        (hidden(&to) <= hides).then_some((from, to))
    }

    /// What the near view shows at one of its places.
    fn enlarged(&self, out: &[[f32; 3]], from: Square, (x, y): (usize, usize), side: usize) -> [f32; 3] {
        let place = |at: usize| ((at as f32 + 0.5) * from.side as f32 / side as f32 - 0.5).max(0.0);
        let (x, y) = (place(x), place(y));
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the picture")]
        let (left, top) = (x as usize, y as usize);
        let (right, foot) = (x - left as f32, y - top as f32);
        let pixel = |x: usize, y: usize| {
            let (x, y) = (x.min(from.side - 1), y.min(from.side - 1));
            out[(from.top + y) * self.width + from.left + x]
        };
        let four = [pixel(left, top), pixel(left + 1, top), pixel(left, top + 1), pixel(left + 1, top + 1)];
        let parts = [(1.0 - right) * (1.0 - foot), right * (1.0 - foot), (1.0 - right) * foot, right * foot];
        [0, 1, 2].map(|channel| four.iter().zip(parts).map(|(pixel, part)| pixel[channel] * part).sum())
    }

    /// A rim around a square: pale, and a dark line around that.
    fn frame(&self, out: &mut [[f32; 3]], square: Square) {
        let pale = if square.side > self.width.min(self.height) / 4 { STRONG[0] } else { 0 };
        let wide = pale + STRONG[1];
        let near = |at: usize, from: usize| (at + wide).checked_sub(from).filter(|at| *at < square.side + 2 * wide);
        for y in square.top.saturating_sub(wide)..(square.top + square.side + wide).min(self.height) {
            for x in square.left.saturating_sub(wide)..(square.left + square.side + wide).min(self.width) {
                let (Some(column), Some(row)) = (near(x, square.left), near(y, square.top)) else { continue };
                let last = square.side + 2 * wide - 1;
                let deep = column.min(row).min(last - column).min(last - row);
                if deep < wide {
                    out[y * self.width + x] = RIM[usize::from(deep < STRONG[1])];
                }
            }
        }
    }
}

impl Square {
    fn touches(self, other: Self) -> bool {
        let apart = |one: usize, long: usize, other: usize, reach: usize| one + long < other || other + reach < one;
        !apart(self.left, self.side, other.left, other.side) && !apart(self.top, self.side, other.top, other.side)
    }
}

/// How much of the picture belongs to something, summed from the upper left, so that any square is known at once.
struct Sums {
    wide: usize,
    tall: usize,
    up_to: Vec<f32>,
}

impl Sums {
    fn of(baked: &Baked, counts: impl Fn(&Spot) -> f32) -> Self {
        let (wide, tall) = (baked.width.div_ceil(COARSE) + 1, baked.height.div_ceil(COARSE) + 1);
        let mut sums = vec![0.0; wide * tall];
        for spot in &baked.spots {
            let (x, y) = (spot.pixel as usize % baked.width, spot.pixel as usize / baked.width);
            sums[(y / COARSE + 1) * wide + x / COARSE + 1] += spot.part * counts(spot);
        }
        for y in 1..tall {
            let mut row = 0.0;
            for x in 1..wide {
                row += sums[y * wide + x];
                sums[y * wide + x] = row + sums[(y - 1) * wide + x];
            }
        }
        Self { wide, tall, up_to: sums }
    }

    /// How much lies in a square of so many cells.
    fn within(&self, x: usize, y: usize, reach: usize) -> f32 {
        let at = |x: usize, y: usize| self.up_to[y.min(self.tall - 1) * self.wide + x.min(self.wide - 1)];
        at(x + reach, y + reach) - at(x, y + reach) - at(x + reach, y) + at(x, y)
    }

    /// How much lies in the square of such a side that holds most, and that square.
    fn fullest(&self, side: usize, whole: (usize, usize)) -> (f32, Square) {
        let reach = side / COARSE;
        let mut best = (0.0, 0, 0);
        for y in 0..self.tall.saturating_sub(reach) {
            for x in 0..self.wide.saturating_sub(reach) {
                let found = self.within(x, y, reach);
                if found > best.0 {
                    best = (found, x, y);
                }
            }
        }
        (best.0, self.centred(best, reach, side, whole))
    }

    /// The square of pixels around the middle of what lies in a square of cells.
    fn centred(&self, (all, x, y): (f32, usize, usize), reach: usize, side: usize, whole: (usize, usize)) -> Square {
        let mut middle = [0.0_f32; 2];
        for row in y..y + reach {
            for column in x..x + reach {
                let part = self.within(column, row, 1) / all.max(1e-6);
                middle[0] += part * (column as f32 + 0.5);
                middle[1] += part * (row as f32 + 0.5);
            }
        }
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the picture")]
        let begin = |middle: f32, long: usize| {
            ((middle * COARSE as f32 - side as f32 * 0.5).max(0.0) as usize).min(long.saturating_sub(side))
        };
        Square { left: begin(middle[0], whole.0), top: begin(middle[1], whole.1), side }
    }
}
