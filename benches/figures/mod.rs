//! Figures as the benches print them: group, name, value and unit, separated by tabs, one a line,
//! so that `benches/table` reads what people read.

#![allow(dead_code, reason = "every bench prints the figures it has")]

use std::time::{Duration, Instant};

/// Prints one figure.
pub fn figure(group: &str, name: &str, value: f64, unit: &str) {
    let digits = match value.abs() {
        size if size >= 1000.0 => 0,
        size if size >= 10.0 => 1,
        _ => 3,
    };
    println!("{group}\t{name}\t{value:.digits$}\t{unit}");
}

/// Prints a time in milliseconds.
pub fn time(group: &str, name: &str, value: Duration) {
    figure(group, name, value.as_secs_f64() * 1e3, "ms");
}

/// The value below which `share` of all values lie, by the nearest rank; sorts them.
pub fn percentile<T: Ord + Copy>(values: &mut [T], share: f64) -> T {
    values.sort_unstable();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a rank")]
    let rank = (share * values.len() as f64).ceil() as usize;
    values[rank.clamp(1, values.len()) - 1]
}

/// How long `work` takes.
pub fn timed<R>(work: impl FnOnce() -> R) -> (R, Duration) {
    let begin = Instant::now();
    (work(), begin.elapsed())
}
