//! Modules placed in rows at fixed heights.

use super::heights::tidied;
use super::phases::{self, Cell, Run, cells};
use super::selection::{self, Taken};

/// How rows lie to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rows {
    /// Columns one above the other.
    Aligned,
    /// Each row where it holds the most.
    Shifted,
}

/// A row at its height: where left edges of modules may lie, from left to right.
#[derive(Debug, Clone)]
pub struct Row {
    /// Number, counted from the lowest row there could be.
    pub number: i64,
    /// Lower edge.
    pub y: f64,
    /// The stretches; at least one.
    pub free: Vec<[f64; 2]>,
}

impl Row {
    /// Middle of what lies between the outermost places for modules.
    fn middle(&self, width: f64) -> f64 {
        let ends = self.free.first().zip(self.free.last());
        ends.map_or(0.0, |(first, last)| f64::midpoint(first[0], last[1] + width))
    }

    /// The longest run it can hold, and the stretch it lies in.
    fn longest(&self, pitch: f64) -> (i64, [f64; 2]) {
        let runs = self
            .free
            .iter()
            .map(|free| (phases::most(&cells(std::iter::once(*free), pitch)), *free));
        runs.reduce(|a, b| if b.0 > a.0 { b } else { a }).unwrap_or((0, [0.0; 2]))
    }
}

/// A row with its modules.
#[derive(Debug, Clone)]
pub struct Filled {
    /// Number of the row.
    pub number: i64,
    /// Lower edge.
    pub y: f64,
    /// Left edge of column 0.
    pub left: f64,
    /// Columns that hold a module, counted from 0.
    pub runs: Vec<Run>,
}

/// Modules in their rows, the lowest first.
#[derive(Debug, Clone)]
pub struct Placing {
    /// The rows.
    pub rows: Vec<Filled>,
    /// How much longer the longest row is than the shortest; 0 where all there is room for are placed.
    uneven: i64,
    /// How far its modules lie beside the middle of their rows on average, those to the right made up for by
    /// those to the left where they stand in columns.
    aside: f64,
}

impl Placing {
    /// How many modules.
    pub fn modules(&self) -> i64 {
        self.runs().map(|run| run.modules).sum()
    }

    fn runs(&self) -> impl Iterator<Item = &Run> {
        self.rows.iter().flat_map(|row| &row.runs)
    }

    /// The better one of two with as many modules in the same rows; `middle` is where the lower edge of a
    /// single row would best lie.
    fn better(self, other: Self, middle: f64) -> Self {
        let rank = |placing: &Self| (placing.rank(), whole((placing.middle() - middle) * 10.0));
        if rank(&other) < rank(&self) { other } else { self }
    }

    /// By what placings with as many modules are compared, whatever their heights: runs, how uneven their
    /// lengths are, how far aside. Nobody sees a centimetre aside, and laying on whole millimetres must not
    /// decide.
    pub fn rank(&self) -> (usize, i64, u64) {
        (self.runs().count(), self.uneven, whole(self.aside / 10.0))
    }

    /// Lower edge of its lowest row.
    pub fn lowest(&self) -> f64 {
        self.rows.first().map_or(0.0, |row| row.y)
    }

    /// Middle of the lower edges of its rows.
    pub fn middle(&self) -> f64 {
        let ends = self.rows.first().zip(self.rows.last());
        ends.map_or(0.0, |(low, high)| f64::midpoint(low.y, high.y))
    }
}

/// The whole part of a figure, whatever its sign.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "no roof is as long")]
const fn whole(figure: f64) -> u64 {
    figure.abs() as u64
}

/// The most modules these rows hold.
pub fn most(rows: &[Row], how: Rows, pitch: f64) -> i64 {
    match how {
        Rows::Aligned => phases::most(&cells(stretches(rows), pitch)),
        Rows::Shifted => {
            let of = |row: &Row| phases::most(&cells(row.free.iter().copied(), pitch));
            rows.iter().map(of).sum()
        }
    }
}

fn stretches(rows: &[Row]) -> impl Iterator<Item = [f64; 2]> + '_ {
    rows.iter().flat_map(|row| row.free.iter().copied())
}

/// The best way to place so many modules in these rows, which hold as many.
///
/// `middle` is where the lower edge of a single row would best lie.
pub fn best(
    rows: &[Row],
    how: Rows,
    size: (f64, f64),
    (modules, middle): (i64, f64),
) -> Option<Placing> {
    match how {
        Rows::Aligned => aligned(rows, size, (modules, middle)),
        Rows::Shifted => Some(shifted(rows, size, modules)),
    }
}

fn aligned(
    rows: &[Row],
    (width, pitch): (f64, f64),
    (modules, middle): (i64, f64),
) -> Option<Placing> {
    let cells = cells(stretches(rows), pitch);
    let with_most = cells.iter().filter(|cell| cell.modules >= modules);
    let placings = with_most.map(|cell| at_phases(rows, *cell, (width, pitch), modules));
    placings.reduce(|a, b| a.better(b, middle))
}

/// Aligned columns at the phase of a cell that puts their modules most nearly into the middle.
fn at_phases(rows: &[Row], cell: Cell, (width, pitch): (f64, f64), modules: i64) -> Placing {
    let phase = cell.middle();
    let runs: Vec<(i64, Vec<Run>)> =
        rows.iter().map(|row| (row.number, phases::runs(&row.free, phase, pitch))).collect();
    let middles: f64 = rows.iter().map(|row| row.middle(width)).sum::<f64>() / rows.len() as f64;
    let columns = (middles - phase + (pitch - width) / 2.0) / pitch;
    let taken = selection::of_columns(&runs, modules, columns);
    let less = cell.modules > modules;
    let (count, off) = taken.iter().fold((0.0, 0.0), |(count, off), (row, run)| {
        let (n, middle) = (run.modules as f64, rows[*row].middle(width));
        let own = phase + run.first as f64 * pitch + f64::midpoint((n - 1.0) * pitch, width);
        (count + n, off + n * (own - middle))
    });
    let off = off / f64::max(count, 1.0);
    let first = taken.iter().map(|(_, run)| run.first).min().unwrap_or(0);
    let to_first = first as f64 * pitch;
    let left = laid(phase - off + to_first, [cell.from + to_first, cell.to + to_first]);
    let lengths: Vec<i64> = taken.iter().map(|(_, run)| run.modules).collect();
    Placing {
        uneven: if less { selection::unevenness(&lengths) } else { 0 },
        aside: off + left - to_first - phase,
        rows: filled(rows, &taken, |_| (left, first)),
    }
}

/// Rows with what is taken of them; `of` says of a row where its column 0 begins and which number that
/// column had.
fn filled(rows: &[Row], taken: &[Taken], of: impl Fn(usize) -> (f64, i64)) -> Vec<Filled> {
    let own = |(at, row): (usize, &Row)| {
        let (left, first) = of(at);
        let runs = taken.iter().filter(|(row, _)| *row == at);
        let runs =
            runs.map(|(_, run)| Run { first: run.first - first, ..*run }).collect::<Vec<_>>();
        (!runs.is_empty()).then_some(Filled { number: row.number, y: row.y, left, runs })
    };
    rows.iter().enumerate().filter_map(own).collect()
}

fn shifted(rows: &[Row], size: (f64, f64), modules: i64) -> Placing {
    let (width, pitch) = size;
    let own: Vec<Filled> = rows.iter().map(|row| row_by_itself(row, size)).collect();
    let held: i64 = own.iter().flat_map(|row| &row.runs).map(|run| run.modules).sum();
    let aside = |rows_of: &[Filled], middle: &dyn Fn(i64) -> f64| {
        let each = rows_of.iter().flat_map(|row| {
            row.runs.iter().map(move |run| {
                let n = run.modules as f64;
                let own =
                    row.left + run.first as f64 * pitch + f64::midpoint((n - 1.0) * pitch, width);
                (n, n * (own - middle(row.number)).abs())
            })
        });
        let (count, off) = each.fold((0.0, 0.0), |(a, b), (n, off)| (a + n, b + off));
        off / f64::max(count, 1.0)
    };
    let middle_of = |number: i64| {
        rows.iter().find(|row| row.number == number).map_or(0.0, |row| row.middle(width))
    };
    if held <= modules {
        return Placing { aside: aside(&own, &middle_of), uneven: 0, rows: own };
    }
    let longest: Vec<(i64, i64)> =
        rows.iter().map(|row| (row.number, row.longest(pitch).0)).collect();
    let Some(block) = selection::block(&longest, modules) else {
        let runs = own.iter().enumerate();
        let runs = runs.flat_map(|(at, row)| row.runs.iter().map(move |run| (at, *run)));
        let taken = selection::longest_first(runs.collect(), modules);
        let lengths: Vec<i64> = taken.iter().map(|(_, run)| run.modules).collect();
        let first = |at: usize| {
            let runs = taken.iter().filter(|(row, _)| *row == at);
            runs.map(|(_, run)| run.first).min().unwrap_or(0)
        };
        let of = |at: usize| (own[at].left + first(at) as f64 * pitch, first(at));
        let rows = filled(rows, &taken, of);
        let uneven = selection::unevenness(&lengths);
        return Placing { aside: aside(&rows, &middle_of), uneven, rows };
    };
    let of_block = &rows[block.first..block.first + block.lengths.len()];
    let middles = of_block.iter().map(|row| row.middle(width)).sum::<f64>();
    let common = middles / of_block.len() as f64;
    let placed = of_block.iter().zip(&block.lengths).filter(|(_, n)| **n > 0);
    let rows: Vec<Filled> = placed
        .map(|(row, n)| {
            let breadth = (*n as f64 - 1.0) * pitch;
            let [a, b] = row.longest(pitch).1;
            let left = laid(common - f64::midpoint(breadth, width), [a, (b - breadth).max(a)]);
            let runs = vec![Run { first: 0, modules: *n }];
            Filled { number: row.number, y: row.y, left, runs }
        })
        .collect();
    let uneven = selection::unevenness(&block.lengths);
    Placing { aside: aside(&rows, &|_| common), uneven, rows }
}

/// A row as full as it can be by itself: with the fewest runs, in the middle of its room.
fn row_by_itself(row: &Row, (width, pitch): (f64, f64)) -> Filled {
    let cells = cells(row.free.iter().copied(), pitch);
    let modules = phases::most(&cells);
    let with_most = cells.into_iter().filter(|cell| cell.modules == modules);
    let one = std::slice::from_ref(row);
    let placings = with_most.map(|cell| at_phases(one, cell, (width, pitch), modules));
    let best = placings.reduce(|a, b| a.better(b, row.y));
    let best = best.and_then(|placing| placing.rows.into_iter().next());
    best.unwrap_or(Filled { number: row.number, y: row.y, left: 0.0, runs: Vec::new() })
}

/// Where something is laid: as near to where it is wanted as the stretch lets it, on a whole millimetre if
/// there is one in it.
fn laid(wanted: f64, [from, to]: [f64; 2]) -> f64 {
    /// What the stretch was lengthened by for the rounding of the arithmetic.
    const SLACK: f64 = 1e-6;
    let [first, last] = [(from - SLACK).ceil(), (to + SLACK).floor()];
    if first <= last {
        wanted.round().clamp(first, last)
    } else {
        tidied(wanted.clamp(from, to.max(from)))
    }
}
