//! A line across the cut through the paint: a groove left of the middle, a ridge right of it, and paths that follow it.

use std::sync::LazyLock;

use super::hand::put_figure;

/// The ground of the flat: everything above is paint.
pub(super) const GROUND: f64 = 92.0;

/// Where the middle of the groove is.
const GROOVE_AT: f64 = 52.0;
/// Where the middle of the ridge is.
pub(super) const RIDGE_AT: f64 = 152.0;

/// How deep the groove is.
const GROOVE: f64 = 24.0;

/// How high the ridge is.
pub(super) const RIDGE: f64 = 22.0;

/// How far the model goes down.
pub(super) const FOOT: f64 = 132.0;

/// From one point of a line to the next.
const PACE: f64 = 5.0;

/// So many heights make a line.
const POINTS: usize = 41;

/// A line across the cut, as heights at even paces.
#[derive(Clone, Copy)]
pub(super) struct Line(pub(super) [f64; POINTS]);

/// The bare model: a groove left of the middle, a ridge right of it.
pub(super) static BARE: LazyLock<Line> = LazyLock::new(|| {
    let mut heights = BELLS.iter().map(|(groove, ridge)| GROUND + GROOVE * groove - RIDGE * ridge);
    Line(std::array::from_fn(|_| heights.next().unwrap_or(GROUND)))
});

/// How much of the groove and of the ridge there is at each place of a line.
static BELLS: LazyLock<Vec<(f64, f64)>> =
    LazyLock::new(|| places().map(|x| (bell(x, GROOVE_AT), bell(x, RIDGE_AT))).collect());

impl Line {
    /// Its points, from the left.
    pub(super) fn points(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        places().zip(self.0)
    }

    /// Another line, of which the height at each place is told from the place in the row, how far right it is, and its
    /// height here.
    pub(super) fn changed(&self, change: impl Fn(usize, f64, f64) -> f64) -> Self {
        let mut heights = self.points().enumerate().map(|(at, (x, y))| change(at, x, y));
        Self(self.0.map(|y| heights.next().unwrap_or(y)))
    }

    /// Everything under the line, down to the foot.
    pub(super) fn down(&self) -> String {
        format!("{}V{FOOT}H0z", path(self.points()))
    }
}

fn places() -> impl Iterator<Item = f64> {
    (0_u32..).take(POINTS).map(|at| f64::from(at) * PACE)
}

/// How much of the groove or the ridge around a place there is: all of it on its floor or top, nothing beside it.
pub(super) fn bell(x: f64, middle: f64) -> f64 {
    let away = ((x - middle).abs() - 9.0).max(0.0) / 14.0;
    (-(away * away)).exp()
}

/// A height between those of recess, face and edge, at a place of a line.
pub(super) fn between(high: [f64; 3], at: usize) -> f64 {
    let (groove, ridge) = BELLS.get(at).copied().unwrap_or_default();
    high[1] + (high[0] - high[1]) * groove + (high[2] - high[1]) * ridge
}

/// A path through some points, each told from the one before; points on one level are one stretch.
pub(super) fn path(points: impl Iterator<Item = (f64, f64)>) -> String {
    let mut path = String::new();
    let round = |at: f64| (at * 10.0).round() / 10.0;
    // Half a unit of height is as fine as an eye sees it, and packs better.
    let halves = |at: f64| (at * 2.0).round() / 2.0;
    let (mut from, mut level) = ((0.0, 0.0), 0.0_f64);
    for (at, (x, y)) in points.map(|(x, y)| (round(x), halves(y))).enumerate() {
        if at == 0 {
            put(&mut path, 'M', &[x, y]);
            from = (x, y);
        } else if (y - from.1).abs() < 0.05 {
            level = x - from.0;
        } else {
            if level > 0.0 {
                put(&mut path, 'h', &[level]);
                from.0 += level;
                level = 0.0;
            }
            put(&mut path, 'l', &[x - from.0, y - from.1]);
            from = (x, y);
        }
    }
    if level > 0.0 {
        put(&mut path, 'h', &[level]);
    }
    path
}

/// Goes on with a path: a letter and its figures, as short as SVG allows. A page has thousands of them: a sign parts two
/// figures as well as a space does, and nothing stands before the point of what is less than one.
fn put(path: &mut String, letter: char, figures: &[f64]) {
    path.push(letter);
    for (at, number) in figures.iter().enumerate() {
        if at > 0 && *number > -0.05 {
            path.push(' ');
        }
        let start = path.len();
        put_figure(path, *number);
        let written = &path[start..];
        let zero =
            if written.starts_with("-0.") { Some(start + 1) } else { written.starts_with("0.").then_some(start) };
        if let Some(zero) = zero {
            path.remove(zero);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_as_short_as_svg_allows() {
        let points = [(0.0, 10.0), (5.0, 9.5), (10.0, 9.5), (15.0, 12.0), (20.0, 12.5)];
        assert_eq!(path(points.into_iter()), "M0 10l5-.5h5l5 2.5l5 .5");
    }
}
