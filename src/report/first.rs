//! The first of many rows in an order in which no two differ and stand together: whatever order they come in,
//! the same are kept.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use serde::Serialize;

/// Where a row stands: the least first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// What matters most.
    pub group: u8,
    /// What matters next.
    pub then: u64,
    /// Number of the line.
    pub line: u64,
}

/// A row in its place. Rows in one place are told apart by all they say.
#[derive(Debug)]
struct Placed<R> {
    place: Place,
    said: String,
    row: R,
}

impl<R> Placed<R> {
    fn order(&self) -> (Place, &str) {
        (self.place, &self.said)
    }
}

impl<R> PartialEq for Placed<R> {
    fn eq(&self, other: &Self) -> bool {
        self.order() == other.order()
    }
}

impl<R> Eq for Placed<R> {}

impl<R> PartialOrd for Placed<R> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<R> Ord for Placed<R> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.order().cmp(&other.order())
    }
}

/// The first of all rows that were offered.
#[derive(Debug)]
pub struct First<R> {
    most: usize,
    rows: BinaryHeap<Placed<R>>,
}

impl<R: Serialize> First<R> {
    /// So many at most.
    #[must_use]
    pub const fn of(most: usize) -> Self {
        Self { most, rows: BinaryHeap::new() }
    }

    /// Offers a row, which is made only where it may be among the first.
    pub fn offer(&mut self, place: Place, row: impl FnOnce() -> R) {
        let is_full = self.rows.len() >= self.most;
        if is_full && self.rows.peek().is_none_or(|last| last.place < place) {
            return;
        }
        let row = row();
        // Rows of a report are made of texts and numbers, which can be written.
        let said = serde_json::to_string(&row).unwrap_or_default();
        self.put(Placed { place, said, row });
    }

    /// Offers the rows of another.
    pub fn add(&mut self, other: Self) {
        for placed in other.rows {
            self.put(placed);
        }
    }

    /// The rows in order.
    #[must_use]
    pub fn into_rows(self) -> Vec<R> {
        self.rows.into_sorted_vec().into_iter().map(|placed| placed.row).collect()
    }

    fn put(&mut self, placed: Placed<R>) {
        self.rows.push(placed);
        if self.rows.len() > self.most {
            self.rows.pop();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_are_the_same_in_whatever_order_they_come() {
        let rows: Vec<(Place, u64)> = (0..40_u64)
            .map(|at| (Place { group: 0, then: at * 7 % 10, line: at * 3 % 20 }, at))
            .collect();
        let first = |rows: &mut dyn Iterator<Item = &(Place, u64)>| {
            let mut first = First::of(9);
            for (place, row) in rows {
                first.offer(*place, || *row);
            }
            first
        };
        let mut expected = rows.clone();
        expected.sort_by_key(|(place, row)| (*place, row.to_string()));
        let expected: Vec<u64> = expected.iter().take(9).map(|(_, row)| *row).collect();
        assert_eq!(first(&mut rows.iter()).into_rows(), expected);
        assert_eq!(first(&mut rows.iter().rev()).into_rows(), expected);
        for cut in 0..rows.len() {
            let mut later = first(&mut rows[cut..].iter());
            later.add(first(&mut rows[..cut].iter()));
            assert_eq!(later.into_rows(), expected, "{cut}");
        }
        let mut none = First::of(0);
        none.offer(rows[0].0, || 1);
        assert!(none.into_rows().is_empty());
    }
}
