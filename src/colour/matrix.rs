//! The little linear algebra that the fits need.

/// A square matrix, row after row.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Square {
    size: usize,
    entries: Vec<f64>,
}

impl Square {
    /// A matrix from its entries' places.
    pub(crate) fn new(size: usize, entry: impl Fn(usize, usize) -> f64) -> Self {
        let entries = (0..size * size).map(|at| entry(at / size, at % size)).collect();
        Self { size, entries }
    }

    /// A matrix that is the same along and down, from the places of one half of its entries.
    pub(crate) fn symmetric(size: usize, entry: impl Fn(usize, usize) -> f64) -> Self {
        let mut entries = vec![0.0; size * size];
        for row in 0..size {
            for column in 0..=row {
                let own = entry(row, column);
                entries[row * size + column] = own;
                entries[column * size + row] = own;
            }
        }
        Self { size, entries }
    }

    /// One row.
    pub(crate) fn row(&self, row: usize) -> &[f64] {
        &self.entries[row * self.size..(row + 1) * self.size]
    }

    /// The lower triangle L with L·Lᵀ = this symmetric matrix (Cholesky).
    ///
    /// A pivot that rounding made 0 or less counts as a very small one.
    pub(crate) fn lower(&self) -> Self {
        let mut lower = Self { size: self.size, entries: vec![0.0; self.entries.len()] };
        for row in 0..self.size {
            for column in 0..=row {
                let known = dot(&lower.row(row)[..column], &lower.row(column)[..column]);
                let rest = self.row(row)[column] - known;
                lower.entries[row * self.size + column] =
                    if row == column { rest.max(1e-14).sqrt() } else { rest / lower.row(column)[column] };
            }
        }
        lower
    }

    /// The sum of the logarithms of the diagonal.
    pub(crate) fn log_diagonal(&self) -> f64 {
        (0..self.size).map(|at| self.row(at)[at].ln()).sum()
    }

    /// x with L·Lᵀ·x = `right`, where this is L.
    pub(crate) fn solve_lower_twice(&self, mut right: Vec<f64>) -> Vec<f64> {
        for row in 0..self.size {
            let known = dot(&self.row(row)[..row], &right[..row]);
            right[row] = (right[row] - known) / self.row(row)[row];
        }
        self.solve_upper(right)
    }

    /// x with Lᵀ·x = `right`, where this is L.
    pub(crate) fn solve_upper(&self, mut right: Vec<f64>) -> Vec<f64> {
        for row in (0..self.size).rev() {
            let known: f64 = (row + 1..self.size).map(|below| self.row(below)[row] * right[below]).sum();
            right[row] = (right[row] - known) / self.row(row)[row];
        }
        right
    }

    /// x with this·x = `right`, by elimination with the largest pivot; `None` where there is no single answer.
    pub(crate) fn solve(mut self, mut right: Vec<f64>) -> Option<Vec<f64>> {
        let size = self.size;
        for step in 0..size {
            let pivot = (step..size).max_by(|a, b| self.row(*a)[step].abs().total_cmp(&self.row(*b)[step].abs()))?;
            if self.row(pivot)[step].abs() < 1e-300 || !self.row(pivot)[step].is_finite() {
                return None;
            }
            right.swap(step, pivot);
            (step..size).for_each(|column| self.entries.swap(step * size + column, pivot * size + column));
            for row in step + 1..size {
                let factor = self.row(row)[step] / self.row(step)[step];
                let (above, below) = self.entries.split_at_mut(row * size);
                let above = &above[step * size..(step + 1) * size];
                below[..size].iter_mut().zip(above).skip(step).for_each(|(entry, above)| *entry -= factor * above);
                right[row] -= factor * right[step];
            }
        }
        for row in (0..size).rev() {
            let known = dot(&self.row(row)[row + 1..], &right[row + 1..]);
            right[row] = (right[row] - known) / self.row(row)[row];
        }
        Some(right)
    }
}

/// The sum of the products of two rows of one length.
// In four sums side by side, which the compiler works out at once: added from first to last, each would wait for the one before.
// By places, as a row is short and the steps of an iterator over two rows are more than the sums.
pub(crate) fn dot(a: &[f64], b: &[f64]) -> f64 {
    let size = a.len().min(b.len());
    let ((a, a_rest), (b, b_rest)) = (a[..size].as_chunks::<4>(), b[..size].as_chunks::<4>());
    let mut sums = [0.0; 4];
    for four in 0..a.len() {
        let (a, b) = (&a[four], &b[four]);
        for at in 0..4 {
            sums[at] += a[at] * b[at];
        }
    }
    for at in 0..a_rest.len() {
        sums[0] += a_rest[at] * b_rest[at];
    }
    sums[0] + sums[1] + (sums[2] + sums[3])
}

/// Adds so many times each number of one row to those of another.
pub(crate) fn add_times(to: &mut [f64], times: f64, row: &[f64]) {
    let size = to.len().min(row.len());
    let (to, row) = (&mut to[..size], &row[..size]);
    for at in 0..size {
        to[at] += times * row[at];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ways_solve_a_small_system() {
        let matrix = Square::new(3, |row, column| if row == column { 4.0 } else { 1.0 / (1 + row + column) as f64 });
        let wanted = [1.0, -2.0, 0.5];
        let right: Vec<f64> = (0..3).map(|row| dot(matrix.row(row), &wanted)).collect();
        for found in [matrix.lower().solve_lower_twice(right.clone()), matrix.clone().solve(right).unwrap()] {
            assert!(found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-14), "{found:?}");
        }
        assert_eq!(Square::new(2, |_, _| 1.0).solve(vec![1.0, 2.0]), None);
    }
}
