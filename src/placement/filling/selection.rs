//! Which modules are taken of a placing that holds more than are wanted.
//!
//! Every run of neighbours has two rails of its own, with hooks at either end. So the fewest runs are
//! taken: whole rows next to each other where these are enough, as even in length as the rows allow, so
//! that a block comes of it and no row of one or two modules.

use std::cmp::Reverse;

use super::phases::Run;

/// A run that is taken: its row, by place among the rows there are, and what is taken of it.
pub type Taken = (usize, Run);

/// Rows next to each other, and how long each is to be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Block {
    /// The lowest, by place among the rows there are.
    pub first: usize,
    /// Modules of each.
    pub lengths: Vec<i64>,
}

/// The fewest rows next to each other whose longest runs are enough for so many modules, each of which is
/// then as long as it can be with all as even as can be. Of several such blocks the most even, then the
/// one in the middle, then the lowest. `rows` are numbers of rows and the length of their longest run.
pub fn block(rows: &[(i64, i64)], most: i64) -> Option<Block> {
    let windows = (0..rows.len()).filter_map(|first| {
        let mut sum = 0;
        let numbers = rows[first].0..;
        for (count, ((number, longest), next)) in rows[first..].iter().zip(numbers).enumerate() {
            if *number != next {
                return None;
            }
            sum += longest;
            if sum >= most {
                return Some([first, first + count]);
            }
        }
        None
    });
    let of = |[first, last]: [usize; 2]| {
        let room: Vec<i64> = rows[first..=last].iter().map(|(_, longest)| *longest).collect();
        Block { first, lengths: levelled(&room, most) }
    };
    let off_middle = |block: &Block| (2 * block.first + block.lengths.len()).abs_diff(rows.len());
    windows.map(of).min_by_key(|block| {
        (block.lengths.len(), unevenness(&block.lengths), off_middle(block), block.first)
    })
}

/// How much the longest of some rows is longer than the shortest.
pub fn unevenness(lengths: &[i64]) -> i64 {
    let least = lengths.iter().min().copied().unwrap_or(0);
    lengths.iter().max().copied().unwrap_or(0) - least
}

/// So many modules spread over rows that have room for these, as evenly as can be; one less in the highest
/// rows where it does not come out even.
fn levelled(room: &[i64], most: i64) -> Vec<i64> {
    let up_to = |level: i64| room.iter().map(|room| level.min(*room)).sum::<i64>();
    let longest = room.iter().max().copied().unwrap_or(0);
    let level = (1..=longest).find(|level| up_to(*level) >= most).unwrap_or(longest);
    let mut over = (up_to(level) - most).max(0);
    let mut lengths: Vec<i64> = room.iter().map(|room| level.min(*room)).collect();
    for length in lengths.iter_mut().rev().filter(|length| **length == level) {
        if over == 0 {
            break;
        }
        *length -= 1;
        over -= 1;
    }
    lengths
}

/// What is taken of aligned rows, by their numbers and runs: all of it where no more than that is wanted.
pub fn of_columns(rows: &[(i64, Vec<Run>)], most: i64, middle: f64) -> Vec<Taken> {
    let runs = || {
        rows.iter().enumerate().flat_map(|(row, (_, runs))| runs.iter().map(move |run| (row, *run)))
    };
    if runs().map(|(_, run)| run.modules).sum::<i64>() <= most {
        return runs().collect();
    }
    let longest = |runs: &[Run]| runs.iter().copied().min_by_key(|run| Reverse(run.modules));
    let lengths: Vec<(i64, i64)> = rows
        .iter()
        .map(|(number, runs)| (*number, longest(runs).map_or(0, |run| run.modules)))
        .collect();
    let Some(block) = block(&lengths, most) else { return longest_first(runs().collect(), most) };
    let own = rows[block.first..].iter().zip(&block.lengths);
    let own: Vec<(Run, i64)> =
        own.filter_map(|((_, runs), length)| Some((longest(runs)?, *length))).collect();
    // The left column of the block: where every full row has it, as near as can be to the middle.
    let full = block.lengths.iter().max().copied().unwrap_or(0);
    let whole = own.iter().filter(|(_, length)| *length == full);
    let least = whole.clone().map(|(run, _)| run.first).max().unwrap_or(0);
    let largest = whole.map(|(run, _)| run.first + (run.modules - full)).min().unwrap_or(0);
    #[expect(clippy::cast_possible_truncation, reason = "rounded, and no roof is as long")]
    let wanted = (middle - full as f64 / 2.0).round() as i64;
    let left =
        if least <= largest { wanted.clamp(least, largest) } else { i64::midpoint(least, largest) };
    let place = |(at, (run, modules)): (usize, (Run, i64))| {
        let inward = left + (full - modules) / 2;
        let first = inward.clamp(run.first, run.first + (run.modules - modules));
        (block.first + at, Run { first, modules })
    };
    own.into_iter().enumerate().map(place).filter(|(_, run)| run.modules > 0).collect()
}

/// The longest runs, so that as few as can be are enough; the last of them shortened.
pub fn longest_first(mut runs: Vec<Taken>, most: i64) -> Vec<Taken> {
    runs.sort_by_key(|(row, run)| (Reverse(run.modules), *row, run.first));
    let mut left = most;
    for (_, run) in &mut runs {
        run.modules = run.modules.min(left);
        left -= run.modules;
    }
    runs.retain(|(_, run)| run.modules > 0);
    runs.sort_by_key(|(row, run)| (*row, run.first));
    runs
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ten_modules_in_rows_of_nine_are_two_rows_of_five() {
        let rows: Vec<(i64, i64)> = (0..3).map(|row| (row, 9)).collect();
        assert_eq!(block(&rows, 10), Some(Block { first: 0, lengths: vec![5, 5] }));
        assert_eq!(block(&rows, 9), Some(Block { first: 1, lengths: vec![9] }));
        assert_eq!(block(&rows, 17), Some(Block { first: 0, lengths: vec![9, 8] }));
        assert_eq!(block(&rows, 28), None);
    }

    #[test]
    fn rows_that_are_not_next_to_each_other_are_no_block() {
        assert_eq!(block(&[(0, 5), (2, 5)], 8), None);
        assert_eq!(block(&[(0, 5), (2, 4), (3, 4)], 8).map(|block| block.first), Some(1));
    }

    #[test]
    fn short_rows_of_a_hip_are_filled_before_long_ones_are_cut() {
        assert_eq!(levelled(&[9, 6, 3], 12), [5, 4, 3]);
        assert_eq!(levelled(&[9, 6, 3], 17), [8, 6, 3]);
    }

    #[test]
    fn where_no_block_is_enough_the_longest_runs_are_taken() {
        let run = |first, modules| Run { first, modules };
        let rows = vec![(0, vec![run(0, 3), run(5, 2)])];
        assert_eq!(of_columns(&rows, 4, 0.0), [(0, run(0, 3)), (0, run(5, 1))]);
        assert_eq!(of_columns(&rows, 5, 0.0), [(0, run(0, 3)), (0, run(5, 2))]);
    }
}
