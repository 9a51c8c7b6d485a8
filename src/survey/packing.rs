//! Which heights of packers let one straight rail pass every slot, with the least packing.
//!
//! **Statement.** Station `i` stands at `x_i` with its bearing face at `l_i` and may take the
//! stack heights `H_i`, a run of consecutive heights of one finite table. Find heights
//! `p_i ∈ H_i` and a rail `(a, m)`, `|m|` limited or not, with
//!
//! ```text
//! 0 <= s_i <= R,   s_i = a + m·x_i − l_i − p_i    (the slot setting)
//! ```
//!
//! least in `Σ p_i`, then in the number of pieces, then in `Σ |s_i − R/2|`.
//!
//! **Method.** Branch and bound over [`Node`]s: a run of heights per station together with a
//! convex region of rails. Tightening drops heights no rail of the region can use and rails no
//! height allows, so the sum of the least heights bounds every solution from below.
//!
//! **Why it is exact.**
//! 1. *Least heights possible: done.* If some rail of the region fits the least heights of a
//!    node, they are its only solution of that sum: any other has a height above the least.
//!    So the node is closed with its pieces and its best rail known exactly.
//! 2. *Branching loses nothing.* A station's heights are split after `h`, next height `h'`. One
//!    half keeps `p_i <= h` and so `s_i + p_i <= h + R`; the other takes `p_i >= h'` and drops the
//!    rails with `s_i + p_i < h + R` as well. A rail that fits `h'` or more is at least at `h'`,
//!    so on those that are dropped `h` itself fits, and its sum is lower. Hence every solution of
//!    least packing, with each of its rails, is in one of the halves.
//! 3. *It ends.* While the least heights do not fit, some station's height must change within the
//!    region, so there is a split; each half has fewer heights, and there are finitely many.
//! 4. *Order.* Nodes are taken by their bound. The first closed one has the least sum; those of
//!    the same bound that remain are closed by 1 without branching, and decide on pieces and
//!    slots.
//!
//! All comparisons are between whole numbers (see [`super::levelling`]).
//!
//! **Effort.** The search stops after `limit` nodes with what it has and says so.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::levelling::{Aim, Bound, Distance, Exact, RailLine, Region};

/// One place where the rail is held.
#[derive(Debug, Clone, Copy)]
pub struct Station {
    /// Where along the rail.
    pub x: Exact,
    /// The bearing face above the string.
    pub level: Exact,
    /// The lowest height it may take, as a place in the table.
    pub first: usize,
    /// The highest.
    pub last: usize,
}

/// Stations and what they share.
#[derive(Debug, Clone)]
pub struct Problem {
    /// At least one.
    pub stations: Vec<Station>,
    /// All heights of stacks, lowest first.
    pub heights: Vec<Exact>,
    /// The fewest pieces of each.
    pub pieces: Vec<usize>,
    /// Length of the slots.
    pub range: Exact,
    /// The largest rise over a run.
    pub tilt: Option<(Exact, Exact)>,
}

/// Heights and rail that solve a [`Problem`].
#[derive(Debug, Clone)]
pub struct Packing {
    /// Per station, a place in the table of heights.
    pub heights: Vec<usize>,
    /// The rail.
    pub rail: RailLine,
    /// Sum of the heights.
    pub total: Exact,
    /// Number of pieces.
    pub pieces: usize,
    /// Sum of the slots' distances from their middle.
    pub deviation: Distance,
}

/// What a search found.
#[derive(Debug, Clone)]
pub struct Search {
    /// The best packing met.
    pub best: Option<Packing>,
    /// No packing has a lower sum; meaningless where `proven` says there is none.
    pub bound: Exact,
    /// Nothing better exists, or nothing at all if there is no best.
    pub proven: bool,
    /// Nodes looked at.
    pub nodes: usize,
}

/// A run of heights per station and the rails that use them.
#[derive(Debug, Clone)]
struct Node {
    least: Vec<usize>,
    most: Vec<usize>,
    region: Region,
}

impl Problem {
    /// Searches for the best packing, looking at no more than `limit` nodes.
    #[must_use]
    pub fn solve(&self, limit: usize) -> Search {
        let mut search = Search { best: None, bound: 0, proven: true, nodes: 0 };
        let Some(root) = self.root() else {
            return search;
        };
        let mut queue = Queue::default();
        queue.push(self.least_sum(&root), root);
        // Some packing, in case the search must stop before the best: lowest sum and heights.
        let mut spare: Option<(Exact, Vec<usize>)> = None;
        while let Some((bound, node)) = queue.pop() {
            let found = search.best.as_ref().map(|best| best.total);
            if found.is_some_and(|total| total < bound) {
                break;
            }
            search.bound = bound;
            if search.nodes == limit {
                search.proven = false;
                break;
            }
            search.nodes += 1;
            if found.is_some() {
                self.improve(&node, &mut search.best);
                continue;
            }
            if self.improve(&node, &mut search.best) {
                continue;
            }
            if let Some(heights) = node.region.any().and_then(|rail| self.heights_on(&rail)) {
                let sum = self.sum(&heights);
                if spare.as_ref().is_none_or(|(known, _)| sum < *known) {
                    spare = Some((sum, heights));
                }
            }
            let ceiling = spare.as_ref().map(|(sum, _)| *sum);
            for half in self.halves(&node) {
                let sum = self.least_sum(&half);
                if ceiling.is_none_or(|ceiling| sum <= ceiling) {
                    queue.push(sum, half);
                }
            }
        }
        if search.best.is_none()
            && let Some((_, heights)) = spare
        {
            search.best = self.packing(heights);
        }
        search
    }

    /// Whether any packing exists; `None` when the steps do not tell. Those taken are used up.
    #[must_use]
    pub fn is_possible(&self, steps: &mut usize) -> Option<bool> {
        let Some(root) = self.root() else { return Some(false) };
        if self.without_holes() {
            return Some(true);
        }
        let mut open = vec![root];
        loop {
            let Some(node) = open.pop() else { return Some(false) };
            *steps = steps.checked_sub(1)?;
            let fits = node.region.any().is_some_and(|rail| self.heights_on(&rail).is_some());
            if fits || self.fitting(&node.least).is_some() {
                return Some(true);
            }
            open.extend(self.halves(&node));
        }
    }

    /// Whether every slot bridges the step from each height to the next. Then what a station
    /// allows is one strip of rails, convex, and the tightened root is empty exactly when there
    /// is no packing.
    #[must_use]
    pub fn without_holes(&self) -> bool {
        self.widest_step() <= self.range
    }

    /// The widest step from one allowed height of a station to the next.
    #[must_use]
    pub fn widest_step(&self) -> Exact {
        let steps = |s: &Station| {
            let used = self.heights.get(s.first..=s.last).unwrap_or_default();
            used.windows(2).map(|pair| pair[1] - pair[0]).max()
        };
        self.stations.iter().filter_map(steps).max().unwrap_or(0)
    }

    /// The lowest and the highest the rail may pass a station.
    #[must_use]
    pub fn gate(&self, station: &Station) -> [Exact; 2] {
        [
            station.level + self.heights[station.first],
            station.level + self.heights[station.last] + self.range,
        ]
    }

    /// All rails through the outermost of `gates`, one per station, within the tilt.
    fn region(&self, gates: &[[Exact; 2]]) -> Option<Region> {
        let numbered = || self.stations.iter().map(|s| s.x).zip(gates.iter().copied());
        let left = numbered().min_by_key(|(x, _)| *x)?;
        let right = numbered().rev().max_by_key(|(x, _)| *x)?;
        let mut region = Region::through(left, right)?;
        if let Some((rise, run)) = self.tilt {
            let within = Bound::tilt(rise, run).into_iter().all(|bound| region.keep(bound));
            within.then_some(())?;
        }
        let within = numbered().all(|(x, [low, top])| {
            region.keep(Bound::not_below(x, low)) && region.keep(Bound::not_above(x, top))
        });
        within.then_some(region)
    }

    /// Everything that is possible at all.
    fn root(&self) -> Option<Node> {
        if self.stations.iter().any(|s| s.first > s.last || s.last >= self.heights.len()) {
            return None;
        }
        let gates: Vec<[Exact; 2]> = self.stations.iter().map(|s| self.gate(s)).collect();
        let node = Node {
            least: self.stations.iter().map(|s| s.first).collect(),
            most: self.stations.iter().map(|s| s.last).collect(),
            region: self.region(&gates)?,
        };
        self.tightened(node)
    }

    /// Drops heights without a rail and rails without a height until nothing changes; `None` when
    /// nothing is left.
    fn tightened(&self, mut node: Node) -> Option<Node> {
        loop {
            let mut changed = false;
            for (i, station) in self.stations.iter().enumerate() {
                let reach = node.region.reach(station.x);
                let lowest = reach.lowest_up - station.level;
                let highest = reach.highest_down - station.level;
                let least = self.lowest_from(lowest - self.range).max(node.least[i]);
                let most = self.heights.partition_point(|h| *h <= highest).checked_sub(1)?;
                let most = most.min(node.most[i]);
                if least > most {
                    return None;
                }
                if least > node.least[i] {
                    node.least[i] = least;
                    changed = true;
                    let floor = Bound::not_below(station.x, station.level + self.heights[least]);
                    node.region.keep(floor).then_some(())?;
                }
                if most < node.most[i] {
                    node.most[i] = most;
                    changed = true;
                    let top = station.level + self.heights[most] + self.range;
                    node.region.keep(Bound::not_above(station.x, top)).then_some(())?;
                }
            }
            if !changed {
                return Some(node);
            }
        }
    }

    /// The two halves of a node, each tightened, without those that are empty. The station whose
    /// height the region leaves most open is split in the middle.
    fn halves(&self, node: &Node) -> impl Iterator<Item = Node> {
        let open = self.stations.iter().enumerate().map(|(i, station)| {
            let highest = node.region.reach(station.x).highest_up - station.level;
            let most = self.lowest_from(highest - self.range).min(node.most[i]);
            (i, most.max(node.least[i]))
        });
        let step = |i: usize, most: usize| self.heights[most] - self.heights[node.least[i]];
        // Of equals the first: the answer must not depend on anything but the input.
        let widest =
            open.reduce(
                |one, other| {
                    if step(other.0, other.1) > step(one.0, one.1) { other } else { one }
                },
            );
        let split = widest.filter(|(i, most)| *most > node.least[*i]).map(|(i, most)| {
            let middle = (self.heights[node.least[i]] + self.heights[most]).div_euclid(2);
            let after = self.heights.partition_point(|h| *h <= middle);
            (i, after.clamp(node.least[i] + 1, most))
        });
        split.into_iter().flat_map(move |(i, after)| {
            let station = &self.stations[i];
            let reached = self.heights[after - 1] + self.range;
            let mut lower = node.clone();
            lower.most[i] = after - 1;
            let lower = lower
                .region
                .keep(Bound::not_above(station.x, station.level + reached))
                .then_some(lower);
            let mut upper = node.clone();
            upper.least[i] = after;
            let from = reached.max(self.heights[after]);
            let upper = upper
                .region
                .keep(Bound::not_below(station.x, station.level + from))
                .then_some(upper);
            [lower, upper].into_iter().flatten().filter_map(|half| self.tightened(half))
        })
    }

    /// Takes the least heights of a node if a rail fits them and they are better; says whether
    /// one fits.
    fn improve(&self, node: &Node, best: &mut Option<Packing>) -> bool {
        if best.as_ref().is_some_and(|best| self.pieces_of(&node.least) > best.pieces) {
            return false;
        }
        let Some(packing) = self.packing(node.least.clone()) else {
            return false;
        };
        if best.as_ref().is_none_or(|best| packing.is_better_than(best)) {
            *best = Some(packing);
        }
        true
    }

    /// The rails that fit given heights.
    fn fitting(&self, heights: &[usize]) -> Option<Region> {
        let low = |(s, h): (&Station, &usize)| s.level + self.heights[*h];
        let gates: Vec<[Exact; 2]> =
            self.stations.iter().zip(heights).map(low).map(|low| [low, low + self.range]).collect();
        self.region(&gates)
    }

    /// Given heights with their best rail; `None` if no rail fits them.
    fn packing(&self, heights: Vec<usize>) -> Option<Packing> {
        let aims: Vec<Aim> = self
            .stations
            .iter()
            .zip(&heights)
            .map(|(s, h)| Aim { x: s.x, twice: 2 * (s.level + self.heights[*h]) + self.range })
            .collect();
        let (rail, deviation) = self.fitting(&heights)?.nearest(&aims, self.range)?;
        let (total, pieces) = (self.sum(&heights), self.pieces_of(&heights));
        Some(Packing { heights, rail, total, pieces, deviation })
    }

    /// The least heights on a given rail, if every station has one.
    fn heights_on(&self, rail: &RailLine) -> Option<Vec<usize>> {
        let on = |s: &Station| {
            let [up, down] = rail.rounded(s.x);
            let least = self.lowest_from(up - s.level - self.range).max(s.first);
            let fits = least <= s.last && self.heights[least] <= down - s.level;
            fits.then_some(least)
        };
        self.stations.iter().map(on).collect()
    }

    /// The place of the lowest height that is not below `h`.
    fn lowest_from(&self, h: Exact) -> usize {
        self.heights.partition_point(|height| *height < h)
    }

    fn least_sum(&self, node: &Node) -> Exact {
        self.sum(&node.least)
    }

    fn sum(&self, heights: &[usize]) -> Exact {
        heights.iter().map(|h| self.heights[*h]).sum()
    }

    fn pieces_of(&self, heights: &[usize]) -> usize {
        heights.iter().map(|h| self.pieces[*h]).sum()
    }
}

impl Packing {
    /// Less packing, then fewer pieces, then slots nearer their middle; of equals the one with
    /// lower heights first along the rail, so that the order of search does not show.
    fn is_better_than(&self, other: &Self) -> bool {
        let coarse = (self.total, self.pieces).cmp(&(other.total, other.pieces));
        let fine = || self.deviation.compare(&other.deviation);
        coarse.then_with(fine).then_with(|| self.heights.cmp(&other.heights)).is_lt()
    }
}

/// Nodes by their bound; of equals the youngest first, which is the deepest.
#[derive(Default)]
struct Queue {
    order: BinaryHeap<(Reverse<Exact>, usize)>,
    nodes: Vec<Option<Node>>,
}

impl Queue {
    fn push(&mut self, bound: Exact, node: Node) {
        self.order.push((Reverse(bound), self.nodes.len()));
        self.nodes.push(Some(node));
    }

    fn pop(&mut self) -> Option<(Exact, Node)> {
        let (Reverse(bound), at) = self.order.pop()?;
        let node = self.nodes.get_mut(at)?.take()?;
        Some((bound, node))
    }
}
