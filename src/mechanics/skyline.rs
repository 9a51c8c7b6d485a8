//! Symmetric linear equations whose matrix has its non-zero numbers near the diagonal.
//!
//! **Model.** `L·D·Lᵀ` without pivoting, column by column from the first row that is not zero: what frames on
//! springs lead to is positive definite, and nothing above that row ever fills.
//!
//! **Units.** Whatever the caller's are.

/// Share of a diagonal number below which what elimination leaves of it is rounding.
const MISSING: f64 = 1e-12;

/// A symmetric matrix, kept column by column from its first row that is not zero down to the diagonal.
#[derive(Debug, Clone)]
pub struct Skyline {
    first: Vec<usize>,
    /// Where each column begins, one more at the end.
    starts: Vec<usize>,
    values: Vec<f64>,
}

/// The same, eliminated.
#[derive(Debug, Clone)]
pub struct Eliminated(Skyline);

impl Skyline {
    /// Nothing but zeros, where column `j` may be filled from row `first[j]` on, which is at most `j`.
    #[must_use]
    pub fn zero(first: Vec<usize>) -> Self {
        let mut starts = vec![0; first.len() + 1];
        for (column, row) in first.iter().enumerate() {
            starts[column + 1] = starts[column] + column + 1 - row;
        }
        let values = vec![0.0; starts[first.len()]];
        Self { first, starts, values }
    }

    /// Adds a number, and its mirror image with it.
    pub fn add(&mut self, row: usize, column: usize, value: f64) {
        let (row, column) = (row.min(column), row.max(column));
        self.values[self.starts[column] + row - self.first[column]] += value;
    }

    fn column(&self, column: usize) -> &[f64] {
        &self.values[self.starts[column]..self.starts[column + 1]]
    }

    /// Eliminated; `None` where it is not safely positive definite.
    #[must_use]
    pub fn eliminated(mut self) -> Option<Eliminated> {
        for j in 0..self.first.len() {
            let top = self.first[j];
            let (before, rest) = self.values.split_at_mut(self.starts[j]);
            let own = &mut rest[..=j - top];
            for i in top + 1..j {
                let from = self.first[i].max(top);
                let other = &before[self.starts[i]..self.starts[i + 1]];
                let other = &other[from - self.first[i]..i - self.first[i]];
                let product: f64 = other.iter().zip(&own[from - top..]).map(|(a, b)| a * b).sum();
                own[i - top] -= product;
            }
            let before_elimination = own[j - top];
            for k in top..j {
                let pivot = before[self.starts[k + 1] - 1];
                let coupled = own[k - top];
                own[k - top] = coupled / pivot;
                own[j - top] -= coupled * coupled / pivot;
            }
            let left = own[j - top];
            if left.is_nan() || left <= MISSING * before_elimination {
                return None;
            }
        }
        Some(Eliminated(self))
    }
}

impl Eliminated {
    /// Solves for one right-hand side, which the solution takes the place of.
    pub fn solve(&self, side: &mut [f64]) {
        let Self(matrix) = self;
        for j in 0..side.len() {
            let (column, top) = (matrix.column(j), matrix.first[j]);
            let known: f64 =
                column[..j - top].iter().zip(&side[top..j]).map(|(l, known)| l * known).sum();
            side[j] -= known;
        }
        for (j, value) in side.iter_mut().enumerate() {
            *value /= matrix.values[matrix.starts[j + 1] - 1];
        }
        for j in (0..side.len()).rev() {
            let (column, top) = (matrix.column(j), matrix.first[j]);
            let found = side[j];
            for (l, above) in column[..j - top].iter().zip(&mut side[top..j]) {
                *above -= l * found;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 4x - 2y = 2, -2x + 5y - 2z = -1, -2y + 3z = 4: x = 1, y = 1, z = 2.
    #[test]
    fn three_equations_are_solved_by_hand() {
        let mut matrix = Skyline::zero(vec![0, 0, 1]);
        for (row, column, value) in
            [(0, 0, 4.0), (1, 0, -2.0), (1, 1, 5.0), (1, 2, -2.0), (2, 2, 3.0)]
        {
            matrix.add(row, column, value);
        }
        let mut side = [2.0, -1.0, 4.0];
        matrix.eliminated().unwrap().solve(&mut side);
        let off = side.iter().zip([1.0, 1.0, 2.0]).map(|(found, by_hand)| (found - by_hand).abs());
        assert!(off.fold(0.0, f64::max) < 1e-12, "{side:?}");
    }

    /// Two rows that say the same leave nothing to divide by.
    #[test]
    fn what_can_move_freely_is_refused() {
        let mut matrix = Skyline::zero(vec![0, 0]);
        for (row, column, value) in [(0, 0, 1.0), (0, 1, -1.0), (1, 1, 1.0)] {
            matrix.add(row, column, value);
        }
        assert!(matrix.eliminated().is_none());
    }
}
