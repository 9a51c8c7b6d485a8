//! Rigid plate held by screws that only pull.
//!
//! **Model.** A plate under an eccentric load presses on one of its edges and is held by its
//! screws; these pull in proportion to their distance from the pressed edge.
//!
//! **Layer.** Knows no hook: edge, screws and moment come in as plain lengths and moments.

use crate::units::{Force, Length, Moment};

/// Pull on each screw from a moment about the pressed edge: `T_i = M·d_i / Σd²`.
///
/// `distances` are measured from the pressed edge; screws beyond it (negative distance) do not
/// pull. A moment of zero or less closes the plate: no screw pulls.
pub fn pulls(
    moment: Moment,
    distances: impl Iterator<Item = Length> + Clone,
) -> impl Iterator<Item = Force> {
    let sum: f64 = distances.clone().map(|d| d.mm().max(0.0).powi(2)).sum();
    distances.map(move |d| {
        if moment > Moment::ZERO && sum > 0.0 {
            Force::from_n(moment.nmm() * d.mm().max(0.0) / sum)
        } else {
            Force::ZERO
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_screws_balance_the_moment_about_the_edge() {
        let d = [Length::from_mm(15.0), Length::from_mm(75.0)];
        let pulls = pulls(Moment::from_knm(0.3), d.into_iter());
        let sum: f64 = pulls.zip(d).map(|(t, d)| t.n() * d.mm()).sum();
        assert!((sum - 0.3e6).abs() < 1e-6);
    }
}
