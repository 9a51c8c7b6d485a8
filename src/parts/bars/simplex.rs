//! A revised simplex method for linear programmes that grow by columns and change their
//! right-hand sides.
//!
//! **Model.** Least `Σ c_j x_j` with `Σ a_ij x_j = b_i` and `x >= 0`; no cost is negative. Columns
//! are added when they are wanted; right-hand sides are changed between solutions. Neither is lost
//! work: after columns the primal method goes on, after right-hand sides the dual one.
//!
//! **Method.** The inverse of the basis is kept whole and updated row by row where a row changes.
//! A basis is a few hundred rows of small whole numbers, and a job takes some hundred exchanges,
//! so nothing is factorised anew. The primal method enters the column that gains most per unit;
//! the dual one mends the value that is farthest from zero, measured across its bound.
//!
//! **Left out.** Proof. What is found is rounded; who uses it checks it in whole numbers.
//!
//! **Effort.** Every exchange is paid for by the entries it changes.

use super::Effort;

/// Smaller than this is nothing.
const NOTHING: f64 = 1e-9;
/// An entry of the inverse smaller than this is left over from rounding.
const VANISHES: f64 = 1e-13;
/// A value this far below zero is to be mended.
const BELOW: f64 = -1e-8;
/// Gain per unit below which a column is not worth entering.
const GAIN: f64 = 1e-9;

/// A column: its cost and its entries by row.
#[derive(Debug, Clone)]
pub(super) struct Column {
    pub(super) cost: f64,
    pub(super) entries: Vec<(usize, f64)>,
}

/// A linear programme and its basis.
pub(super) struct Simplex {
    columns: Vec<Column>,
    /// Column of each row of the basis.
    basis: Vec<usize>,
    is_basic: Vec<bool>,
    /// Inverse of the basis by row.
    inverse: Vec<Vec<f64>>,
    right: Vec<f64>,
    values: Vec<f64>,
    prices: Vec<f64>,
}

/// How an optimisation ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum End {
    /// No column gains and no value is negative.
    Optimal,
    /// The effort was spent, or rounding stood in the way.
    Stopped,
}

impl Simplex {
    /// A programme that starts with this column in each row: one entry, of one, in its own row.
    pub(super) fn new(columns: Vec<Column>, start: Vec<usize>) -> Self {
        let rows = start.len();
        let mut inverse = vec![vec![0.0; rows]; rows];
        inverse.iter_mut().enumerate().for_each(|(row, inverse)| inverse[row] = 1.0);
        let mut is_basic = vec![false; columns.len()];
        for column in &start {
            is_basic[*column] = true;
        }
        Self {
            prices: start.iter().map(|column| columns[*column].cost).collect(),
            is_basic,
            columns,
            basis: start,
            inverse,
            right: vec![0.0; rows],
            values: vec![0.0; rows],
        }
    }

    /// Adds a column; its place.
    pub(super) fn add(&mut self, column: Column) -> usize {
        self.columns.push(column);
        self.is_basic.push(false);
        self.columns.len() - 1
    }

    /// Adds a row in which no column has an entry yet, with a column for it in the basis: what is
    /// in excess in it counts in another row, or for nothing. Its price is that of the other row.
    pub(super) fn add_row(&mut self, excess_in: Option<usize>) -> usize {
        let row = self.basis.len();
        let mut entries = vec![(row, -1.0)];
        entries.extend(excess_in.map(|other| (other, 1.0)));
        let column = self.add(Column { cost: 0.0, entries });
        self.is_basic[column] = true;
        self.basis.push(column);
        for inverse in &mut self.inverse {
            let entry = excess_in.map_or(0.0, |other| inverse[other]);
            inverse.push(entry);
        }
        let mut inverse = vec![0.0; row + 1];
        inverse[row] = -1.0;
        self.inverse.push(inverse);
        self.values.push(0.0);
        self.right.push(0.0);
        self.prices.push(excess_in.map_or(0.0, |other| self.prices[other]));
        column
    }

    /// Changes what a column costs.
    pub(super) fn set_cost(&mut self, column: usize, cost: f64) {
        let change = cost - self.columns[column].cost;
        self.columns[column].cost = cost;
        if let Some(row) = self.basis.iter().position(|basic| *basic == column) {
            let inverse = &self.inverse[row];
            self.prices.iter_mut().zip(inverse).for_each(|(price, x)| *price += change * x);
        }
    }

    /// Prices of the rows.
    pub(super) fn prices(&self) -> &[f64] {
        &self.prices
    }

    /// Columns above zero and their values, by row of the basis.
    pub(super) fn values(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        self.basis.iter().copied().zip(self.values.iter().copied()).filter(|(_, x)| *x > NOTHING)
    }

    /// What the solution costs.
    pub(super) fn cost(&self) -> f64 {
        self.values().map(|(column, x)| self.columns[column].cost * x).sum()
    }

    /// Other right-hand sides, on the same basis: values may be negative until [`Self::mend`].
    pub(super) fn set_right(&mut self, right: impl Iterator<Item = f64>) {
        self.right.clear();
        self.right.extend(right);
        for (value, inverse) in self.values.iter_mut().zip(&self.inverse) {
            *value = inverse.iter().zip(&self.right).map(|(x, b)| x * b).sum();
        }
    }

    /// The dual method: exchanges until no value is negative.
    pub(super) fn mend(&mut self, effort: &mut Effort) -> End {
        loop {
            // The value that is farthest from its bound, measured across it.
            let distance = |row: usize| {
                let across: f64 = self.inverse[row].iter().map(|x| x * x).sum();
                self.values[row] * self.values[row] / across
            };
            let negative = (0..self.basis.len()).filter(|row| self.values[*row] < BELOW);
            let farthest = negative.map(|row| (distance(row), row));
            let Some((_, row)) = farthest.max_by(|a, b| a.0.total_cmp(&b.0)) else {
                return End::Optimal;
            };
            let inverse = &self.inverse[row];
            let mut best: Option<(f64, f64, usize)> = None;
            for (place, column) in self.columns.iter().enumerate() {
                if self.is_basic[place] {
                    continue;
                }
                let pull: f64 = column.entries.iter().map(|(r, a)| inverse[*r] * a).sum();
                if pull > -1e-7 {
                    continue;
                }
                let ratio = self.reduced(column).max(0.0) / -pull;
                let wins = best.is_none_or(|(known, strength, _)| {
                    ratio < known - NOTHING || (ratio < known + NOTHING && -pull > strength)
                });
                if wins {
                    best = Some((ratio, -pull, place));
                }
            }
            let paid = effort.spend(2 * self.columns.len() as u64);
            let Some((_, _, entering)) = best.filter(|_| paid) else { return End::Stopped };
            let direction = self.direction(entering);
            self.exchange(row, entering, &direction, effort);
        }
    }

    /// The primal method over the columns there are: exchanges until none gains.
    pub(super) fn improve(&mut self, effort: &mut Effort) -> End {
        loop {
            let gains = (0..self.columns.len())
                .filter(|place| !self.is_basic[*place])
                .map(|place| (self.reduced(&self.columns[place]), place))
                .min_by(|a, b| a.0.total_cmp(&b.0));
            let paid = effort.spend(self.columns.len() as u64);
            let Some((_, entering)) = gains.filter(|(reduced, _)| *reduced < -GAIN) else {
                return End::Optimal;
            };
            let direction = self.direction(entering);
            let mut leaving: Option<(f64, usize)> = None;
            for (row, (change, value)) in direction.iter().zip(&self.values).enumerate() {
                if *change < 1e-7 {
                    continue;
                }
                let ratio = value.max(0.0) / change;
                let wins = leaving.is_none_or(|(known, at)| {
                    ratio < known - 1e-12 || (ratio <= known && *change > direction[at])
                });
                if wins {
                    leaving = Some((ratio, row));
                }
            }
            let Some((_, row)) = leaving.filter(|_| paid) else { return End::Stopped };
            self.exchange(row, entering, &direction, effort);
        }
    }

    fn reduced(&self, column: &Column) -> f64 {
        column.cost - column.entries.iter().map(|(row, a)| self.prices[*row] * a).sum::<f64>()
    }

    /// How the values of the basis fall when a column rises.
    fn direction(&self, column: usize) -> Vec<f64> {
        let entries = &self.columns[column].entries;
        self.inverse
            .iter()
            .map(|inverse| entries.iter().map(|(row, a)| inverse[*row] * a).sum())
            .collect()
    }

    fn exchange(&mut self, row: usize, entering: usize, direction: &[f64], effort: &mut Effort) {
        let step = self.values[row] / direction[row];
        let gain = self.reduced(&self.columns[entering]) / direction[row];
        let inverse = &self.inverse[row];
        self.prices.iter_mut().zip(inverse).for_each(|(price, x)| *price += gain * x);
        self.values.iter_mut().zip(direction).for_each(|(value, change)| *value -= step * change);
        self.values[row] = step;
        self.invert(row, direction, effort);
        self.is_basic[self.basis[row]] = false;
        self.is_basic[entering] = true;
        self.basis[row] = entering;
    }

    /// Brings the inverse up to date: the column with this direction takes over a row.
    fn invert(&mut self, row: usize, direction: &[f64], effort: &mut Effort) {
        let rows = self.basis.len();
        let mut pivot = std::mem::take(&mut self.inverse[row]);
        let mut places = Vec::with_capacity(rows);
        for (place, x) in pivot.iter_mut().enumerate() {
            if x.abs() < VANISHES {
                *x = 0.0;
            } else {
                *x /= direction[row];
                places.push(place);
            }
        }
        // Step by step through the whole row is faster than picking, unless there is little to do.
        let whole = 4 * places.len() > rows;
        let mut changed = 0;
        for (inverse, change) in self.inverse.iter_mut().zip(direction) {
            if change.abs() < VANISHES || inverse.is_empty() {
                continue;
            }
            changed += 1;
            if whole {
                inverse.iter_mut().zip(&pivot).for_each(|(entry, x)| *entry -= change * x);
            } else {
                for place in &places {
                    inverse[*place] -= change * pivot[*place];
                }
            }
        }
        self.inverse[row] = pivot;
        let each = if whole { rows / 4 } else { places.len() };
        effort.spend((changed * each + 4 * rows) as u64);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn column(cost: f64, entries: &[(usize, f64)]) -> Column {
        Column { cost, entries: entries.to_vec() }
    }

    /// Least `3x + 2y` with `x + y >= 4` and `x + 3y >= 6`, worked by hand: `y = 4`, cost 8; with
    /// `x + y >= 1` instead `y = 2`, cost 4; with a third column of cost 1 in both
    /// rows, 5: three of the third and one of the second.
    #[test]
    fn columns_and_right_hand_sides_may_change() {
        let columns = vec![
            column(3.0, &[(0, 1.0), (1, 1.0)]),
            column(2.0, &[(0, 1.0), (1, 3.0)]),
            column(0.0, &[(0, -1.0)]),
            column(0.0, &[(1, -1.0)]),
            column(100.0, &[(0, 1.0)]),
            column(100.0, &[(1, 1.0)]),
        ];
        let effort = &mut Effort::of(u64::MAX);
        let mut simplex = Simplex::new(columns, vec![4, 5]);
        simplex.set_right([4.0, 6.0].into_iter());
        assert_eq!([simplex.mend(effort), simplex.improve(effort)], [End::Optimal; 2]);
        assert!((simplex.cost() - 8.0).abs() < 1e-9, "{}", simplex.cost());
        simplex.set_right([1.0, 6.0].into_iter());
        assert_eq!([simplex.mend(effort), simplex.improve(effort)], [End::Optimal; 2]);
        assert!((simplex.cost() - 4.0).abs() < 1e-9, "{}", simplex.cost());
        simplex.set_right([4.0, 6.0].into_iter());
        simplex.add(column(1.0, &[(0, 1.0), (1, 1.0)]));
        assert_eq!([simplex.mend(effort), simplex.improve(effort)], [End::Optimal; 2]);
        assert!((simplex.cost() - 5.0).abs() < 1e-9, "{}", simplex.cost());
        let total: f64 = simplex.prices().iter().zip([4.0, 6.0]).map(|(y, b)| y * b).sum();
        assert!((total - simplex.cost()).abs() < 1e-9, "prices are worth the cost");
    }
}
