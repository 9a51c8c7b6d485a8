//! Why no straight rail exists: the hooks that make it so, by how much, and what would help.
//!
//! **Model.** A station lets the rail pass between `low_i` (lowest height of packers, bolt at the
//! lower end of the slot) and `top_i` (highest, upper end). If slots were longer by `e`, so would
//! be every `top_i`. The least `e` for which a rail passes all gates is a linear program in
//! `(a, m, e)`; its dual has three equations, so an optimum rests on at most three stations:
//! one whose gate is above the chord through the tops of two others, one whose gate is below the
//! chord through the bottoms of two others, or, with a limited tilt, two stations whose gates are
//! too far apart. The worst of all these is the least `e` exactly. A pair in conflict is named
//! rather than three stations; three in conflict without such a pair are so only together.
//!
//! **Left out.** Where a slot is shorter than the step between two stack heights, a station's
//! gate has holes, and more than three hooks may be needed to make a conflict.

use std::cmp::Ordering;

use super::levelling::Exact;
use super::packing::Problem;

/// Stations that no rail passes together.
#[derive(Debug, Clone)]
pub struct Clash {
    /// Those the rail would have to pass above, in the order of their number.
    pub proud: Vec<usize>,
    /// Those it would have to pass below.
    pub low: Vec<usize>,
    /// Per proud station, how much the clash shrinks for each unit it sinks, as a fraction.
    shares: Vec<(usize, Exact, Exact)>,
    by: (Exact, Exact),
}

impl Clash {
    /// How much longer every slot would have to be, rounded up.
    #[must_use]
    pub fn by(&self) -> Exact {
        let (n, d) = self.by;
        -(-n).div_euclid(d)
    }

    /// How far a station would have to sink to end this clash, rounded up; `None` if it takes no
    /// part in it as a proud one.
    #[must_use]
    pub fn sinking(&self, station: usize) -> Option<Exact> {
        let (_, n, d) = self.shares.iter().find(|(i, n, _)| *i == station && *n > 0)?;
        let (by, over) = self.by;
        Some(-(-by * d).div_euclid(over * n))
    }

    fn compare(&self, other: &Self) -> Ordering {
        (self.by.0 * other.by.1).cmp(&(other.by.0 * self.by.1))
    }
}

/// The worst clash between the gates of the stations; `None` when a rail passes them all.
#[must_use]
pub fn worst(problem: &Problem) -> Option<Clash> {
    let gates = gates(problem);
    worst_of(pairs(&gates, problem.tilt).chain(triples(&gates)))
}

/// The worst clash among those of fewest stations: without any one of them there is none.
#[must_use]
pub fn smallest(problem: &Problem) -> Option<Clash> {
    let gates = gates(problem);
    worst_of(pairs(&gates, problem.tilt)).or_else(|| worst_of(triples(&gates)))
}

fn gates(problem: &Problem) -> Vec<(Exact, [Exact; 2])> {
    problem.stations.iter().map(|s| (s.x, problem.gate(s))).collect()
}

/// Of equals the first, so that the answer depends on nothing but the input.
fn worst_of(clashes: impl Iterator<Item = Clash>) -> Option<Clash> {
    let real = clashes.filter(|clash| clash.by.0 > 0);
    real.reduce(|one, other| if other.compare(&one).is_gt() { other } else { one })
}

/// Two gates one above the other, or too far apart for the tilt.
fn pairs(
    gates: &[(Exact, [Exact; 2])],
    tilt: Option<(Exact, Exact)>,
) -> impl Iterator<Item = Clash> {
    let all = (0..gates.len()).flat_map(|i| (0..gates.len()).map(move |j| (i, j)));
    all.filter_map(move |(proud, low)| {
        let ((x1, [bottom, _]), (x2, [_, top])) = (gates[proud], gates[low]);
        let apart = (x1 - x2).abs();
        let (rise, run) = if apart == 0 { (0, 1) } else { tilt? };
        Some(Clash {
            proud: vec![proud],
            low: vec![low],
            shares: vec![(proud, 1, 1)],
            by: ((bottom - top) * run - rise * apart, run),
        })
    })
}

/// One gate off the chord of two others.
fn triples(gates: &[(Exact, [Exact; 2])]) -> impl Iterator<Item = Clash> {
    let n = gates.len();
    let all = (0..n).flat_map(move |j| (0..n).flat_map(move |k| (0..n).map(move |i| (i, j, k))));
    all.filter(|(i, j, k)| {
        // Strictly between: at an end it is a pair.
        gates[*j].0 < gates[*i].0 && gates[*i].0 < gates[*k].0
    })
    .flat_map(|(i, j, k)| {
        let ((x, [bottom, top]), (x1, [bottom1, top1]), (x2, [bottom2, top2])) =
            (gates[i], gates[j], gates[k]);
        let (span, to1, to2) = (x2 - x1, x - x1, x2 - x);
        let above = Clash {
            proud: vec![i],
            low: vec![j, k],
            shares: vec![(i, 1, 1)],
            by: (bottom * span - top1 * to2 - top2 * to1, span),
        };
        let below = Clash {
            proud: vec![j, k],
            low: vec![i],
            shares: vec![(j, to2, span), (k, to1, span)],
            by: (bottom1 * to2 + bottom2 * to1 - top * span, span),
        };
        [above, below].into_iter().filter(|clash| clash.by.0 > 0)
    })
}
