//! Load cases added up.

/// A load put together of a strip's cases: at most three of them, each with a factor.
///
/// Supports are linear springs, so everything that is linear in the loads adds up alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Superposition {
    parts: [(usize, f64); 3],
}

impl Superposition {
    /// No load.
    pub const NOTHING: Self = Self { parts: [(0, 0.0); 3] };

    /// Cases with their factors.
    #[must_use]
    pub const fn new(parts: [(usize, f64); 3]) -> Self {
        Self { parts }
    }

    /// One case as it is.
    #[must_use]
    pub const fn alone(case: usize) -> Self {
        Self { parts: [(case, 1.0), (case, 0.0), (case, 0.0)] }
    }

    /// The cases with their factors; a factor may be 0.
    #[must_use]
    pub const fn parts(&self) -> &[(usize, f64); 3] {
        &self.parts
    }

    /// Sum of a value each case has.
    #[must_use]
    pub fn sum(&self, of_case: &[f64]) -> f64 {
        let [a, b, c] = self.parts;
        a.1 * of_case[a.0] + b.1 * of_case[b.0] + c.1 * of_case[c.0]
    }

    /// Sum of a value each case has, all taken as if they were of one sense: no sum is larger.
    #[must_use]
    pub fn at_most(&self, of_case: &[f64]) -> f64 {
        self.parts.iter().map(|(case, factor)| (factor * of_case[*case]).abs()).sum()
    }

    /// Sums of values each case has as many of, written over `out`; `values` lists those of the first
    /// case, then those of the next.
    pub fn sum_each(&self, values: &[f64], cases: usize, out: &mut Vec<f64>) {
        let count = values.len() / cases.max(1);
        let [a, b, c] = self.parts.map(|(case, factor)| (&values[case * count..][..count], factor));
        out.clear();
        out.extend(a.0.iter().zip(b.0).zip(c.0).map(|((x, y), z)| a.1 * x + b.1 * y + c.1 * z));
    }
}
